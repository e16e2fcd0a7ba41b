// Checks on feeds: ratings of conductors and contacts, and the voltage that arrives.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// What a link may carry alone, and with the others of its place that carry current.
struct LinkLimit {
    Amperes rating, derated;
    std::size_t places = 0;  ///< conductors of the ribbon, contacts of the port, or leads
};

/// Nothing for a link whose part states no rating; `loaded` of its place carry 10 mA or more.
std::optional<LinkLimit> limit_of(const Design& design, const Link& link, std::size_t loaded);

/// Finds conductors and contacts above their rating, supplies that arrive too low or are given too
/// high, and tells what could not be judged.
Findings check_feeds(const Design& design, const Wiring& wiring);

}  // namespace pinfold
