// Marks: where in the user's files a fact was written.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

namespace pinfold {

/// One input file, kept alive by every mark into it so that a message can quote the line.
struct Source {
    std::string name;  ///< as the user gave it: a path, or "input" in a test
    std::string text;
};

/// A place in a source; line and column count from 1, the column in code points.
/// A default mark points nowhere.
struct Mark {
    std::shared_ptr<const Source> source;
    int line = 0;
    int column = 0;
    std::size_t line_begins = 0;  ///< the byte of the source where the line begins; 0 if not known
};

/// The largest input file that is read; a design of a thousand boards is far smaller.
constexpr std::size_t largest_input_bytes = std::size_t{8} << 20;

/// Reads a whole file. Throws InputError if it cannot be read or is larger than
/// `most_bytes`.
std::shared_ptr<const Source> read_source(const std::filesystem::path& path,
                                          std::size_t most_bytes = largest_input_bytes);

}  // namespace pinfold
