// Rules for the terminal: the list of them, and one explained.
#pragma once

#include <string>

#include "check/rules.hpp"

namespace pinfold {

std::string rule_list_text();

/// The rule's name and severity, what it finds, why it matters, and who says so.
std::string rule_text(const Rule& rule);

}  // namespace pinfold
