// Board files made from a netlist: adopted, written as YAML, read back before they are shown.
#pragma once

#include "design/adopt.hpp"

namespace pinfold {

/// A board file and what is in doubt about it.
struct AdoptedBoard {
    std::string text;
    Findings doubts;  ///< they stand in the file too, as comments
};

/// The board file of the named parts of a netlist. `from` says in the file what it was made of.
///
/// Whatever characters names hold, the file reads back through read_board to a board that joins the
/// same pads; a text that no board file can hold gets `?` in place of its control characters.
/// Throws InputError like adopt.
AdoptedBoard adopted_board(const Netlist& drawn, const std::vector<PartWords>& parts,
                           const std::string& from, Library& library);

/// The board file as it is written, without reading it back.
std::string board_yaml(const Adoption& adoption, const std::string& from);

}  // namespace pinfold
