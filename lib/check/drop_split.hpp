// Where a supply's drop is lost: in conductors, in contacts, in leads, in traces of boards.
#pragma once

#include "check/feed.hpp"

namespace pinfold {

/// Out and back together; they add up to the supply's drop.
struct DropSplit {
    Volts conductors, contacts, leads, traces;
};

/// Splits the drop of a load of the networks; nothing everywhere if its network did not settle.
///
/// Each link's drop counts by the share of one ampere, from the load's giver to its taker and back,
/// that would run through it (Tellegen's theorem: these products add up to the load's drop).
DropSplit split_drop(const Wiring& wiring, const FeedNetworks& networks, std::size_t load,
                     const Feeds& feeds);

}  // namespace pinfold
