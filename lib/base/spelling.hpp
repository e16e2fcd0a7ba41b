// Spelling: the nearest known name to one that is not known, and names without stray blanks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pinfold {

/// The known name that needs the fewest letters changed, added, dropped or exchanged with their
/// neighbour; none if even that one is further off than a third of the name (at least 2 letters).
/// The first wins a tie. Of a very long list only the first 2000 are looked at.
std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known);

/// " (did you mean 'x'?)", or nothing.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& known);

/// Without blanks, tabs and carriage returns at its ends.
std::string_view trimmed(std::string_view text);

}  // namespace pinfold
