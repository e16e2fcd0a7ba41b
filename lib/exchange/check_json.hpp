// The verdict on a design as JSON.
#pragma once

#include <string>

#include "check/check.hpp"

namespace pinfold {

/// A document of schema `pinfold-check/1`: the findings, and what became of every promised signal.
///
/// `file`, `line` and `column` are null where a finding or note has no place in a file; `reached`
/// is null where nothing is. Bytes that are not UTF-8 become U+FFFD.
std::string check_json(const Design& design, const Verdict& verdict);

}  // namespace pinfold
