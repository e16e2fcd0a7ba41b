#include "shelves.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "base/finding.hpp"

namespace pinfold::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::array kinds{PinMapKind::connector, PinMapKind::interface, PinMapKind::ribbon,
                           PinMapKind::receptacle};

bool is_shelf(const fs::path& folder) {
    return std::ranges::any_of(kinds, [&](PinMapKind kind) {
        std::error_code trouble;
        return fs::is_directory(folder / folder_of(kind), trouble);
    });
}

/// Adds a folder unless it is there already under another name.
void add(std::vector<fs::path>& shelves, const fs::path& folder) {
    const bool known = std::ranges::any_of(shelves, [&](const fs::path& shelf) {
        std::error_code trouble;
        return fs::equivalent(shelf, folder, trouble);
    });
    if (!known) shelves.push_back(folder);
}

/// Adds a folder the user named; a name that leads to no pin maps is a slip worth telling.
void add_named(std::vector<fs::path>& shelves, const fs::path& folder, std::string_view how) {
    if (is_shelf(folder)) return add(shelves, folder);
    throw InputError({{Severity::error, "pinmaps-missing",
                       fmt::format("'{}', named by {}, is no folder of pin maps: it has none of "
                                   "connectors, interfaces, ribbons, receptacles in it",
                                   folder.string(), how),
                       Mark{}}});
}

std::vector<std::string> split_at_colons(std::string_view text) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(':'), text.size());
        if (end > 0) parts.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

/// The pin maps installed with the program, wherever it was moved to.
fs::path installed_shelf() {
    std::error_code trouble;
    const fs::path program = fs::read_symlink("/proc/self/exe", trouble);
    return (program.parent_path() / PINFOLD_PINMAPS_FROM_PROGRAM).lexically_normal();
}

}  // namespace

Library open_library(const std::vector<std::string>& named, const fs::path& beside) {
    std::vector<fs::path> shelves;
    if (is_shelf(beside / "pinmaps")) add(shelves, beside / "pinmaps");
    for (const std::string& folder : named) add_named(shelves, folder, "--pinmaps");
    const char* variable = std::getenv("PINFOLD_PINMAPS");
    for (const std::string& folder : split_at_colons(variable ? variable : "")) {
        add_named(shelves, folder, "PINFOLD_PINMAPS");
    }
    if (is_shelf(installed_shelf())) add(shelves, installed_shelf());
    return Library(std::move(shelves));
}

}  // namespace pinfold::cli
