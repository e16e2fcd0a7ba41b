// Letters and digits of ASCII, whatever the locale says.
#pragma once

namespace pinfold {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

}  // namespace pinfold
