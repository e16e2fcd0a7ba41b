// Reports: what a check found, for people.
#pragma once

#include <string>

#include "check/check.hpp"

namespace pinfold {

/// The findings with their places and repairs, then one line per promise and the verdict.
std::string check_report(const Design& design, const Verdict& verdict);

}  // namespace pinfold
