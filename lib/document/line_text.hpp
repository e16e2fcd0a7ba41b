// Line report: what each pair of a design meets, for the terminal.
#pragma once

#include <string>

#include "check/line_fault.hpp"

namespace pinfold {

/// One row for each pair, below it the definitions and what was assumed.
std::string line_text(const Design& design, const std::vector<LineGroup>& groups);

/// `ok`, or what is off in a word or two; `no rate` where none is promised.
std::string verdict_of(const LineGroup& group, const PairLine& pair);

}  // namespace pinfold
