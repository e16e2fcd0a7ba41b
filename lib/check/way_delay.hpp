// How long the halves of a pair take from port to port, as far as lengths are known.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "check/ribbon_line.hpp"

namespace pinfold {

/// What is known of how long a half takes, and where it is known from.
struct HalfDelay {
    std::optional<Picoseconds> delay;  ///< nothing where no length on the way is known
    std::set<std::string> boards;      ///< those whose trace lengths are in it
    std::vector<ContactRef> contacts;  ///< on boards, where the lengths were found
};

struct WayDelay {
    HalfDelay plus, minus;
};

/// Traces as their boards' stack-ups make them, else at the permittivity of their boards; ribbons
/// as `RibbonLines::delay_of` has it, leads at an effective permittivity of 1.8 (an insulated wire
/// beside its return, from memory).
WayDelay delay_of(const Design& design, RibbonLines& ribbons, const PairWay& way);

/// The traces of a pair between two ribbons, board by board: with a line where the board has a
/// stack-up and both halves run on the traces of one pair; without a length, of none.
std::vector<TracesPlan> traces_of(const Design& design, LineMemory& memory, const Landing& plus,
                                  const Landing& minus);

}  // namespace pinfold
