// Reading a board we make: its ports and the copper between them.
#pragma once

#include "design/read_port.hpp"

namespace pinfold {

/// Reads the fields of a board, from a file of its own or from inside a design; every fault is
/// noted on the desk.
Board read_copper_board(const Yaml& yaml, std::string name, bool is_file, ReaderDesk& desk);

}  // namespace pinfold
