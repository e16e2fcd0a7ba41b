// Columns and paragraphs of a page for the terminal.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace pinfold {

/// The width of a page in columns; tables may be wider.
constexpr int page_width = 96;

using Rows = std::vector<std::vector<std::string>>;

/// Rows of cells, set in columns two blanks apart, each line after `indent`.
std::string in_columns(const Rows& rows, std::string_view indent = "");

/// Words set in lines no wider than the page, each line after `indent`.
std::string in_lines(std::string_view text, std::string_view indent = "");

}  // namespace pinfold
