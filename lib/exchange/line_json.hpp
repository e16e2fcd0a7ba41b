// Line measures as JSON and as rows for CSV.
#pragma once

#include <string>

#include "check/line_fault.hpp"

namespace pinfold {

/// One object for each promise and its ribbons, one for each pair; `schema` "pinfold-line/1".
std::string line_json(const Design& design, const std::vector<LineGroup>& groups,
                      const Findings& findings);

/// One line for each pair, after RFC 4180.
std::string line_csv(const Design& design, const std::vector<LineGroup>& groups);

}  // namespace pinfold
