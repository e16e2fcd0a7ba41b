// Absent lines: the promised fast pairs that nothing was measured of, and why.
#pragma once

#include "check/line.hpp"

namespace pinfold {

/// One finding for all pairs of a promise that do not arrive (`line-broken`), and one for those
/// that arrive over no ribbon with a ground in it (`line-absent`); `groups` is what
/// `measure_lines` found in all promises of the design.
Findings absent_lines(const Design& design, const Wiring& wiring,
                      const std::vector<LineGroup>& groups);

}  // namespace pinfold
