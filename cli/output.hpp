// Writing results: to the terminal, or to a file that appears whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace pinfold::cli {

/// Prints `text` to standard output, or writes it to `file` unless that is empty or `-`.
///
/// A file is written beside its place and then renamed. Throws InputError if the disk is full, the
/// folder is missing, or `file` is one of `inputs`, which are never overwritten.
void deliver(std::string_view text, const std::filesystem::path& file,
             const std::vector<std::filesystem::path>& inputs);

}  // namespace pinfold::cli
