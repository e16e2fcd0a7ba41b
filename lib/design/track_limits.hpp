// Track limits: what a board's file wants of the tracks and vias on it.
#pragma once

#include <optional>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// Widths of tracks and vias, the gap between copper, the hole of a via; what is missing follows
/// from the pitch.
struct TrackLimits {
    std::optional<Millimetres> track, gap, via, hole;
    Mark at;
};

}  // namespace pinfold
