// Checks on feeds: ratings of conductors and contacts, and the voltage that arrives.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Finds conductors and contacts above their rating, supplies that arrive too low or are given too
/// high, and tells what could not be judged.
Findings check_feeds(const Design& design, const Wiring& wiring);

}  // namespace pinfold
