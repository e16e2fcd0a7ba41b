// Text of a user's file as it may be shown on a terminal.
#pragma once

#include <string>
#include <string_view>

namespace pinfold {

/// Tabs as blanks; other control characters, bytes that are not UTF-8, and the characters that turn
/// the direction of writing or break lines unseen, as `?`.
///
/// Source of the latter: Unicode Standard Annex #9, section 2 (U+061C, U+200E, U+200F, U+202A to
/// U+202E, U+2066 to U+2069); U+2028 and U+2029 are its line and paragraph separators.
std::string shown(std::string_view text);

}  // namespace pinfold
