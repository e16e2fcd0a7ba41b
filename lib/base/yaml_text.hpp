// Texts as YAML takes them, so that what is read back is what was written.
#pragma once

#include <string>
#include <string_view>

namespace pinfold {

/// A text inside a list or as a value: as it is where YAML takes it for nothing else, else quoted.
std::string yaml_text(std::string_view text);

/// A text between double quotes. Signs nobody sees are written by their number, tabs as `\t`; other
/// control characters, which no file of ours holds, become `?`.
std::string quoted_yaml(std::string_view text);

}  // namespace pinfold
