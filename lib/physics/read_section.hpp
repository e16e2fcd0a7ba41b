// Reading section files.
#pragma once

#include <memory>

#include "physics/section.hpp"

namespace pinfold {

/// Reads a section. Throws InputError for a broken file, for a section no field can be solved in
/// (`require_solvable`), and for roles that make no line (`require_line`).
Section read_section(std::shared_ptr<const Source> source);

}  // namespace pinfold
