// Text in columns: how wide it stands on a terminal, and how to pad and wrap it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace pinfold {

/// Columns a text takes on a terminal: two for East Asian wide characters, none for marks that
/// combine with the character before them.
///
/// Ranges after Unicode Standard Annex 11, coarse; from memory.
int display_width(std::string_view text);

/// Blanks after the text up to `width` columns.
std::string padded(std::string_view text, int width);

/// Lines of at most `width` columns, broken at blanks; a longer word stands alone.
std::vector<std::string> wrapped(std::string_view text, int width);

}  // namespace pinfold
