// A folder without a file in it, for fuzzed designs that name board files.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>

inline std::filesystem::path empty_folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "pinfold-fuzz-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) std::abort();
    return pattern;
}
