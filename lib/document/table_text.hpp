// The wiring table in plain text: for the terminal, and as Markdown.
#pragma once

#include <string>

#include "document/table.hpp"

namespace pinfold {

std::string to_text(const WiringTable& table);
std::string to_markdown(const WiringTable& table);

/// Text in which no character means anything to Markdown: `\ | * _ < > [ ] & ~ $` and backticks
/// get a backslash, and so do what would open a list or a heading at its start.
std::string markdown_text(std::string_view text);

}  // namespace pinfold
