// Line measures as JSON and as rows for CSV.
#pragma once

#include <string>

#include "base/finding.hpp"
#include "check/line_change.hpp"
#include "check/line_singles.hpp"

namespace pinfold {

/// One object for each promise and its ribbons, one for each pair, one for each single signal on a
/// ribbon; `schema` "pinfold-line/1".
/// `changes` belong to the groups in their order; none at all if none were tried.
std::string line_json(const Design& design, const std::vector<LineGroup>& groups,
                      const std::vector<SingleLine>& singles,
                      const std::vector<std::vector<LineChange>>& changes,
                      const Findings& findings);

/// One line for each pair, after RFC 4180.
std::string line_csv(const Design& design, const std::vector<LineGroup>& groups);

}  // namespace pinfold
