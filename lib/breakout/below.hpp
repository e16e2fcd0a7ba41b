// Below: where wires run on the bottom layer beside their dives, and where they come up or go down.
#pragma once

#include "breakout/layers.hpp"

namespace pinfold {

/// A wire at the two ends of the channel. It is there on the bottom layer if it left its row
/// beneath the one before it, or if it dives anyway and its pad is a plated hole.
struct Below {
    bool begins = false;  ///< at the near row
    bool rises = false;   ///< by a via, before any dives
    bool sinks = false;   ///< by a via, after all dives
    bool ends = false;    ///< at the far row
};

/// One for each wire, however far from a hole the dive is. One that begins below stays there until
/// its own dive, and one that ends below from its dive on, unless another dive has to pass beneath
/// the top layer where it runs.
std::vector<Below> below_of(const PadRows& rows, const Escape& escape,
                            const std::vector<Dive>& dives);

}  // namespace pinfold
