#include "check/causes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "check/hypothesis.hpp"
#include "check/single_faults.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

/// Beyond this many contacts a design is judged without trying changes one by one.
constexpr std::size_t most_contacts_to_try = 20'000;
constexpr std::size_t most_trials = 400;

std::size_t contacts_of(const Design& design) {
    std::size_t count = 0;
    for (const Board& board : design.boards) {
        for (const Port& port : board.ports) count += port.contacts.size();
    }
    return count;
}

std::set<PassKey> without(const std::set<PassKey>& all, const std::set<PassKey>& taken) {
    std::set<PassKey> rest;
    std::ranges::set_difference(all, taken, std::inserter(rest, rest.end()));
    return rest;
}

bool touches_everywhere(const Design& design, const Wiring& wiring) {
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        const std::optional<Seating>& seating = wiring.seating_of(r);
        if (seating && !seating->touch_b) return false;
    }
    return true;
}

class CauseFinder {
public:
    CauseFinder(const Design& design, const Wiring& wiring)
        : design_(design), wiring_(wiring), failing_(failing(wiring)) {}

    Findings find() {
        lift_untouched_ribbons();
        if (contacts_of(design_) <= most_contacts_to_try) {
            while (!failing_.empty() && explain_by_hypothesis()) {
            }
        }
        explain_singly();
        return std::move(findings_);
    }

private:
    /// A ribbon that does not touch is told elsewhere; what it would do if it did is told here.
    void lift_untouched_ribbons() {
        if (touches_everywhere(design_, wiring_)) return;
        for (Ribbon& ribbon : design_.ribbons) ribbon.lay.reset();
        retrace();
    }

    void retrace() {
        wiring_ = trace(design_);
        failing_ = failing(wiring_);
    }

    /// What a change mends, if it breaks nothing; an empty set if it breaks something.
    std::set<PassKey> mended_by(const Edit& edit) {
        if (++trials_ > most_trials) return {};
        const std::set<PassKey> still = failing(trace(edited(design_, edit)));
        if (!without(still, failing_).empty()) return {};
        return without(failing_, still);
    }

    /// Finds the guess that mends most, tells it, and goes on as if it had been undone.
    bool explain_by_hypothesis() {
        std::vector<Hypothesis> guesses = hypotheses(design_, wiring_);
        const Hypothesis* best = nullptr;
        std::set<PassKey> mended;
        for (const Hypothesis& guess : guesses) {
            std::set<PassKey> now = mended_by(guess.undo);
            if (now.size() <= mended.size()) continue;
            best = &guess;
            mended = std::move(now);
        }
        const std::size_t enough = std::max<std::size_t>(3, failing_.size() / 2);
        if (!best || mended.size() < enough) return false;

        Finding finding = best->finding;
        finding.repairs = repairs(best->repairs, mended);
        findings_.push_back(std::move(finding));
        design_ = edited(design_, best->undo);
        retrace();
        return true;
    }

    std::vector<std::string> repairs(const std::vector<Edit>& edits,
                                     const std::set<PassKey>& broken) {
        std::vector<std::string> good;
        for (const Edit& edit : edits) {
            if (++trials_ > most_trials) break;
            const Design copy = edited(design_, edit);
            const Wiring traced = trace(copy);
            const std::set<PassKey> still = failing(traced);
            const bool mends = std::ranges::includes(without(failing_, still), broken);
            if (mends && without(still, failing_).empty() && touches_everywhere(copy, traced)) {
                good.push_back(edit.text);
            }
        }
        return good;
    }

    void explain_singly() {
        if (failing_.empty()) return;
        for (SingleFault& fault : single_faults(design_, wiring_)) {
            const std::set<PassKey> broken(fault.passes.begin(), fault.passes.end());
            fault.finding.repairs = repairs(fault.repairs, broken);
            findings_.push_back(std::move(fault.finding));
        }
    }

    Design design_;
    Wiring wiring_;
    std::set<PassKey> failing_;
    std::size_t trials_ = 0;
    Findings findings_;
};

}  // namespace

Findings check_promises(const Design& design, const Wiring& wiring) {
    return CauseFinder(design, wiring).find();
}

std::vector<std::string> touch_repairs(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends) {
    std::vector<std::string> good;
    if (contacts_of(design) > most_contacts_to_try) return good;
    for (const Edit& edit : ribbon_edits(design, ribbon, ends)) {
        const Design copy = edited(design, edit);
        const Wiring traced = trace(copy);
        const std::optional<Seating>& seating = traced.seating_of(ribbon);
        if (seating && seating->touch_b && failing(traced).empty()) good.push_back(edit.text);
    }
    return good;
}

}  // namespace pinfold
