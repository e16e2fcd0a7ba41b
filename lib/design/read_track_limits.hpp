// Reading what a board wants of its tracks and vias.
#pragma once

#include "base/fields.hpp"
#include "design/track_limits.hpp"

namespace pinfold {

/// Reads `track-rules`. Refused are sizes that no board has and a hole as wide as its via.
TrackLimits read_track_limits(Fields& board, Findings& findings);

}  // namespace pinfold
