// Checks on how plugs and ribbon ends sit: what fits into what, and whether copper touches.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Finds plugs and ribbons in parts that do not take them: `gender-misfit`, `body-misfit`,
/// `pitch-misfit`, `positions-misfit`, `end-thickness-misfit`, `ribbon-loose`.
Findings check_fits(const Design& design, const Wiring& wiring);

/// Finds ribbon ends whose copper faces the plastic (`copper-away`), receptacles that leave the
/// order open (`either-way-up`) and ribbons with no lay given (`lay-unknown`).
Findings check_touch(const Design& design, const Wiring& wiring);

/// The finding of a ribbon that makes contact either way up; an error if only one way keeps the
/// promises.
Finding either_way_up(const Design& design, std::size_t ribbon, const RibbonEnds& ends,
                      bool matters);

/// How board B may lie for a ribbon with no lay of its own to touch: in words, for a straight run.
std::string lying_that_touches(Seating seating, Copper copper);

}  // namespace pinfold
