// Pasting: lists put in the place of `wired: best`, every other byte of the user's file kept.
#pragma once

#include <string>
#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// A list for one port, contact 1 first, in the words of its board.
struct PortList {
    PortRef port;
    std::vector<std::string> names;
};

/// `[GND, D2+, D2-, ...]`, broken at 100 columns; further lines begin `indent` blanks in.
std::string list_text(const std::vector<std::string>& names, std::size_t first_column,
                      std::size_t indent);

/// The text of the design with the lists in it. A board that has a file of its own comes into the
/// design, its comments with it, so that one file holds the answer.
///
/// The ports must be `wired: best`.
std::string with_lists(const Design& design, const Source& source,
                       const std::vector<PortList>& lists);

}  // namespace pinfold
