// Judging lines: what was measured of the pairs, held against what their interfaces want.
#pragma once

#include "base/finding.hpp"
#include "check/line_fault.hpp"

namespace pinfold {

/// Judges what was measured, one finding for all pairs of a promise that have one fault; the first
/// ground resonance in band, and a band above what the model holds for.
Findings judge_lines(const Design& design, const std::vector<LineGroup>& groups);

/// Measures and judges the promises that state a rate and of which all pairs and grounds arrive;
/// what is broken is mended first.
Findings check_lines(const Design& design, const Wiring& wiring, LineMemory& memory);

}  // namespace pinfold
