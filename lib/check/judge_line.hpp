// Judging lines: what was measured of the pairs, held against what their interfaces want.
#pragma once

#include "check/line.hpp"

namespace pinfold {

/// Judges what was measured: impedance off the interface's window, eye closed, ground resonance in
/// band, band above what the model holds for.
Findings judge_lines(const Design& design, const std::vector<LineGroup>& groups);

}  // namespace pinfold
