// Line report: what each pair of a design meets, for the terminal.
#pragma once

#include <string>

#include "check/line_change.hpp"
#include "check/line_singles.hpp"

namespace pinfold {

/// One row for each pair, what helpful changes would do, the single signals; below the definitions
/// and what was assumed. `changes` belong to the groups in their order; none at all if none were
/// tried.
std::string line_text(const Design& design, const std::vector<LineGroup>& groups,
                      const std::vector<SingleLine>& singles,
                      const std::vector<std::vector<LineChange>>& changes);

/// `ok`, or what is off in a word or two; `no rate` where none is promised.
std::string verdict_of(const LineGroup& group, const PairLine& pair);

}  // namespace pinfold
