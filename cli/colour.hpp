// Colour for findings on a terminal.
#pragma once

#include <cstdio>
#include <string>
#include <string_view>

#include "base/finding.hpp"

namespace pinfold::cli {

/// Whether `stream` is a terminal and the user has not set NO_COLOR to anything.
bool wants_colour(std::FILE* stream);

/// The text of findings (to_text) with the words error, warning and note in colour, if `stream`
/// wants it; else the text as it is.
std::string painted(std::string_view text, std::FILE* stream);

/// Says findings on standard error, as well as it can: there is nowhere left to complain.
void tell(const Findings& findings);

}  // namespace pinfold::cli
