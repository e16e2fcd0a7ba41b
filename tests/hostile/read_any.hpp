// Reading any of the program's YAML files, whatever bytes they hold: a result or an InputError.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "check/check.hpp"
#include "check/line_memory.hpp"
#include "design/read.hpp"
#include "physics/read_section.hpp"
#include "support.hpp"

namespace pinfold {

/// A shipped file and the folder beside which it looks for others.
struct ShippedFile {
    std::filesystem::path path;
    std::string text;
};

/// Every pin map, and every file of the examples, in order of their names.
inline std::vector<ShippedFile> shipped_files() {
    std::vector<ShippedFile> files;
    for (const char* folder : {"pinmaps", "examples"}) {
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(repository() / folder)) {
            if (entry.path().extension() != ".yaml") continue;
            std::stringstream text;
            text << std::ifstream(entry.path(), std::ios::binary).rdbuf();
            files.push_back({entry.path(), text.str()});
        }
    }
    std::ranges::sort(files, {}, &ShippedFile::path);
    return files;
}

/// What became of a text read as the kind of file it was before it was spoilt.
enum class Outcome { read, refused };

/// Any other exception goes through and fails the test. A design that can be read is also checked.
inline Outcome read_spoilt(const ShippedFile& file, std::string text, Library& library) {
    const auto source = text_source(std::move(text));
    const auto starts = [&](const char* key) { return file.text.find(key) != std::string::npos; };
    try {
        if (starts("pinfold-interface:")) {
            read_interface("x", source);
        } else if (starts("pinfold-connector:")) {
            read_connector("x", source,
                           [&](const std::string& id, const Mark& at) -> const Interface& {
                               return library.interface(id, at);
                           });
        } else if (starts("pinfold-ribbon:")) {
            read_ribbon_type("x", source);
        } else if (starts("pinfold-receptacle:")) {
            read_receptacle_type("x", source);
        } else if (starts("pinfold-section:")) {
            read_section(source);
        } else if (starts("pinfold-board:")) {
            Design design;
            read_board(source, "x", design, library);
        } else {
            static LineMemory memory;
            check_design(read_design(source, file.path.parent_path(), library), memory);
        }
    } catch (const InputError& error) {
        for (const Finding& finding : error.findings()) to_text(finding);
        if (error.findings().empty()) throw std::logic_error("an InputError without a finding");
        return Outcome::refused;
    }
    return Outcome::read;
}

}  // namespace pinfold
