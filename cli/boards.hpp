// Finding the board of a design that a command is about.
#pragma once

#include <string>

#include "design/design.hpp"

namespace pinfold::cli {

/// The board of that name, by its place. Throws InputError for a name no board has, and for a
/// device.
std::size_t find_board(const Design& design, const std::string& name);

}  // namespace pinfold::cli
