// Matching the ports of a board to the parts of a netlist.
#pragma once

#include "check/compare.hpp"

namespace pinfold {

/// One match for each port, in their order: by the board file's reference, else the port's name
/// that our own netlists carry, else a footprint that no other part has, else the best fit of pads
/// and nets. Throws InputError if two fits are equally good.
std::vector<PortMatch> match_parts(const Board& board, const Netlist& meant, const Netlist& drawn);

}  // namespace pinfold
