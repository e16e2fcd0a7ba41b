// Checks on the order of the conductors in a ribbon.
#pragma once

#include "base/finding.hpp"
#include "check/occupant.hpp"

namespace pinfold {

/// Finds pairs that are split or lack a guard, what disturbs them, grounds that are too few or
/// joined at one end only, and what a displaced ribbon would do, in one ribbon.
Findings check_ribbon_order(const Design& design, const Wiring& wiring, std::size_t ribbon);

/// A supply and what it would meet if the ribbon went in reversed or one place off.
struct Encounter {
    Occupant supply;
    Occupant met;
};

/// What each supply would meet that cannot stand it: in reversed order (shift 0), or with every
/// conductor `shift` places off.
std::vector<Encounter> harmful_encounters(const Design& design, const std::vector<Occupant>& row,
                                          int shift);

}  // namespace pinfold
