// UTF-8: where it is broken, its code points, and which of them nobody sees.
#pragma once

#include <optional>
#include <string_view>

namespace pinfold {

/// What some editors put in front of a file of UTF-8 (RFC 3629, section 6).
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// The first byte that cannot stand where it stands (RFC 3629: no overlong forms, no surrogates,
/// nothing above U+10FFFF), or nothing.
std::optional<std::size_t> first_invalid_utf8(std::string_view text);

/// The first control character: C0, delete, and the C1 controls U+0080 to U+009F, which some
/// terminals obey as well; or nothing.
std::optional<std::size_t> first_control(std::string_view text);

/// The number of code points in well-formed text.
int code_points(std::string_view text);

struct CodePoint {
    char32_t value = 0;
    std::size_t bytes = 1;
};

/// The code point that starts at a byte of well-formed UTF-8.
CodePoint code_point_at(std::string_view text, std::size_t at);

/// C0, delete, C1.
bool is_control(char32_t c);

/// Whether it turns the direction of writing or breaks a line unseen, or is a byte order mark.
///
/// Source: Unicode Standard Annex #9, section 2 (U+061C, U+200E, U+200F, U+202A to U+202E, U+2066
/// to U+2069); U+2028 and U+2029 are its line and paragraph separators.
bool is_turning(char32_t c);

/// Signs nobody sees: those, and marks of width and joining, soft hyphens, tags.
///
/// Source: Unicode, general categories Cf, Zl, Zp; the list is from memory.
bool is_unseen(char32_t c);

}  // namespace pinfold
