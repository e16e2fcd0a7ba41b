// The ordering of a design: every ribbon's order chosen, or measured against the best, and proved.
#pragma once

#include <functional>

#include "check/check.hpp"
#include "order/cargo.hpp"
#include "order/paste.hpp"
#include "order/question.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// What was found for one ribbon.
struct RibbonOrder {
    std::string ribbon;
    bool chosen = false;                  ///< its order was left open; else it was only measured
    std::vector<std::string> conductors;  ///< signals, conductor 1 first
    OrderProblem problem;
    BestOrder best;
    /// Figures of the order the design has, where it was only measured; `split` if that order
    /// parts a pair.
    std::optional<Figures> drawn;
    bool split = false;
    std::vector<std::string> rules;  ///< that clash, if there is no order at all
    Cargo cargo;                     ///< of an order that was chosen
    /// Ports of ribbons chosen after this one, on the boards at its ends: what crosses on the way
    /// to them is counted there.
    std::vector<PortRef> counted_later;
    std::array<std::optional<std::int64_t>, aim_count> alone;  ///< what each aim reaches by itself
    std::vector<PortList> lists;                               ///< to paste, by port
    double seconds = 0.0;
};

/// The answer for a whole design.
struct Ordering {
    Design written;    ///< as the user's files have it
    Design design;     ///< with all orders in place, if there are any
    std::string text;  ///< the user's file with the lists in place; empty if nothing was open
    std::vector<RibbonOrder> ribbons;
    Verdict verdict;  ///< of `design`, traced and checked like any other

    bool has_order() const;
    bool all_proved() const;
};

/// How long it may take, and what time it is: seconds since some beginning.
struct TimeLimit {
    std::function<double()> now;
    double seconds = 10.0;
};

/// Chooses the order of every ribbon with a port that is `wired: best`; measures the others that
/// join two ports against the best order of the same conductors. Ribbons that meet on a board are
/// chosen one after another, as the file has them, each the best beside those before it.
///
/// The lists are put into the text of the design, which is read, traced and checked anew: nothing
/// is believed. `folder` is where board files are looked for. What is found in that text is told
/// with its lines, under the name `result`, else that of `source`. Throws InputError for a design
/// that cannot be read, with its lists too.
Ordering order_design(const std::shared_ptr<const Source>& source,
                      const std::filesystem::path& folder, Library& library, const TimeLimit& limit,
                      std::string result = {});

}  // namespace pinfold
