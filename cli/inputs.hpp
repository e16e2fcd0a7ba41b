// The files a design was read from, which no output may overwrite.
#pragma once

#include <filesystem>
#include <vector>

#include "design/design.hpp"

namespace pinfold::cli {

/// The design file and the files of its boards, each once.
std::vector<std::filesystem::path> inputs_of(const Design& design);

}  // namespace pinfold::cli
