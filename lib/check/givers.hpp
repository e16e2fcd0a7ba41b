// Checks on who gives a supply: two boards must not feed one conductor.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Finds supplies that two boards give at once, told by the promises and by supplies that every
/// box of an interface gives.
Findings check_givers(const Design& design, const Wiring& wiring);

}  // namespace pinfold
