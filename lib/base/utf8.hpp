// UTF-8: where it is broken, and how many code points it holds.
#pragma once

#include <optional>
#include <string_view>

namespace pinfold {

/// The first byte that cannot stand where it stands (RFC 3629: no overlong forms, no surrogates,
/// nothing above U+10FFFF), or nothing.
std::optional<std::size_t> first_invalid_utf8(std::string_view text);

/// The first control character: C0, delete, and the C1 controls U+0080 to U+009F, which some
/// terminals obey as well; or nothing.
std::optional<std::size_t> first_control(std::string_view text);

/// The number of code points in well-formed text.
int code_points(std::string_view text);

}  // namespace pinfold
