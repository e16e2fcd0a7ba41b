// Text of a user's file as it may be shown on a terminal.
#pragma once

#include <string>
#include <string_view>

namespace pinfold {

/// Tabs as blanks; other control characters, bytes that are not UTF-8, and the characters that turn
/// the direction of writing or break lines unseen, as `?`.
std::string shown(std::string_view text);

/// A page for people, every line of it as it may be shown.
std::string shown_page(std::string_view page);

}  // namespace pinfold
