// Where the program finds its pin maps.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "pinmap/library.hpp"

namespace pinfold::cli {

/// The folders of pin maps, nearest first: `pinmaps` beside the design, those the user names with
/// --pinmaps, PINFOLD_PINMAPS, the ones installed with the program.
Library open_library(const std::vector<std::string>& named, const std::filesystem::path& beside);

}  // namespace pinfold::cli
