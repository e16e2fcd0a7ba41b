// Edits: single changes to a copy of a design, to be traced again and see what they mend.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// One change a person could make, in words and as a deed.
struct Edit {
    std::string text;
    std::function<void(Design&)> apply;
};

Design edited(const Design& design, const Edit& edit);

/// How many changed copies of a design are worth tracing: the larger it is the fewer, so that they
/// cost a second or two at most.
std::size_t worthwhile_trials(const Design& design);

/// Gives each contact of a board's port the copper that another contact has now: contact i gets
/// that of `from[i]`; a place beyond the row leaves it open.
void rewire(Port& port, const std::vector<std::size_t>& from);

/// What moving a board's list by one place, or turning it round, is called.
std::string move_text(const std::string& port, int shift);
std::string reverse_text(const std::string& port);

/// Changes that alter the order or the touch of one ribbon: its copper, its lay, a receptacle's
/// side, the direction or place of a board's list.
std::vector<Edit> ribbon_edits(const Design& design, std::size_t ribbon, const RibbonEnds& ends);

/// Exchanges the copper of the contacts of `port` that the passes go through, so that each arrives
/// where it should; they must arrive at each other's contacts. One edit for each way round.
std::vector<Edit> exchange_edits(const Design& design, const Wiring& wiring, PortRef port,
                                 const std::vector<const Pass*>& passes, const std::string& what);

/// Exchanges the copper of a contact with that of each other contact of its port in turn.
std::vector<Edit> exchanges_of(const Design& design, const ContactRef& contact);

/// The order of a row, reversed or moved by `shift` places.
std::vector<std::size_t> reversed_order(std::size_t contacts);
std::vector<std::size_t> shifted_order(std::size_t contacts, int shift);
/// Odd and even contacts exchanged.
std::vector<std::size_t> rows_exchanged_order(std::size_t contacts);

}  // namespace pinfold
