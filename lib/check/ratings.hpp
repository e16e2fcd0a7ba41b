// Checks on feeds: ratings of conductors and contacts, and the voltage that arrives.
#pragma once

#include <map>

#include "base/finding.hpp"
#include "check/feed.hpp"

namespace pinfold {

/// What a link may carry alone, and with the others of its place that carry current.
struct LinkLimit {
    Amperes rating, derated;
    std::size_t places = 0;  ///< conductors of the ribbon, contacts of the port, or leads
};

/// Whether a link carries 10 mA or more; less counts as nothing.
bool carries(const LinkLoad& load);

/// How many links of a ribbon, a seat or a join carry current; all leads together are one bundle.
class LoadedPlaces {
public:
    LoadedPlaces(const Wiring& wiring, const std::vector<LinkLoad>& loads);

    std::size_t on(const Link& link) const;

private:
    static std::pair<LinkKind, std::uint32_t> place_of(const Link& link);

    std::map<std::pair<LinkKind, std::uint32_t>, std::size_t> loaded_;
};

/// Nothing for a link whose part states no rating; `loaded` of its place carry 10 mA or more.
std::optional<LinkLimit> limit_of(const Design& design, const Link& link, std::size_t loaded);

/// Finds conductors and contacts above their rating, supplies that arrive too low or are given too
/// high, and tells what could not be judged.
Findings check_feeds(const Design& design, const Wiring& wiring);

}  // namespace pinfold
