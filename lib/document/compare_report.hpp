// The report of a comparison: what was found, how the ports were matched, and the verdict.
#pragma once

#include <string>

#include "check/compare.hpp"

namespace pinfold {

/// The findings with their places, then one line a port and the verdict, for people.
std::string compare_report(const Board& board, const Comparison& comparison,
                           const std::string& form);

}  // namespace pinfold
