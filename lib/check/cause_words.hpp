// Cause words: each slip and each cause of a comparison as one finding.
#pragma once

#include "check/pad_words.hpp"
#include "check/slips.hpp"

namespace pinfold {

/// Slips first. Two exchanges that move both halves of one pair to where another pair belongs are
/// told as one.
Findings told(const PadWords& words, PadDiagnosis diagnosis);

}  // namespace pinfold
