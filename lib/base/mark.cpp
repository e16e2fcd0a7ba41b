#include "base/mark.hpp"

#include <fmt/format.h>

#include <fstream>

#include "base/finding.hpp"

namespace pinfold {
namespace {

[[noreturn]] void refuse(const char* rule, std::string text) {
    throw InputError({{Severity::error, rule, std::move(text), Mark{}}});
}

}  // namespace

std::shared_ptr<const Source> read_source(const std::filesystem::path& path,
                                          std::size_t most_bytes) {
    std::error_code trouble;
    if (std::filesystem::is_directory(path, trouble)) {
        refuse("file-unreadable", fmt::format("'{}' is a folder, not a file", path.string()));
    }
    std::ifstream in(path, std::ios::binary);
    if (!in) refuse("file-unreadable", fmt::format("cannot read '{}'", path.string()));

    std::string text;
    std::string block(std::size_t{1} << 16, '\0');
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        text.append(block, 0, static_cast<std::size_t>(in.gcount()));
        if (text.size() > most_bytes) {
            refuse("file-too-large",
                   fmt::format("'{}' is larger than {} MiB", path.string(), most_bytes >> 20));
        }
    }
    if (in.bad()) refuse("file-unreadable", fmt::format("cannot read '{}'", path.string()));
    return std::make_shared<const Source>(Source{path.string(), std::move(text)});
}

}  // namespace pinfold
