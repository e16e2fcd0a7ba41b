// Reading designs and board files.
#pragma once

#include <filesystem>

#include "design/design.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// Reads a design file and the board files it names.
///
/// Throws InputError with every fault found: broken YAML, unknown fields and names (with the
/// nearest), quantities out of range, ports joined twice, promises no port can keep. A design that
/// is returned is well-formed; whether it is any good is for the checks.
Design read_design(const std::filesystem::path& file, Library& library);

/// The same from text already read; board files are looked for in `folder`.
Design read_design(std::shared_ptr<const Source> source, const std::filesystem::path& folder,
                   Library& library);

/// Reads one board file into `design.boards`, with the pin maps it names, under the name `name`.
///
/// Throws InputError like read_design.
void read_board(std::shared_ptr<const Source> source, std::string name, Design& design,
                Library& library);

}  // namespace pinfold
