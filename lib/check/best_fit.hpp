// Best fit: which free parts of a netlist stand for the ports that no name tells.
#pragma once

#include "check/compare.hpp"

namespace pinfold {

/// Fills in the matches without a reference for which parts with most of the pads are free: those
/// that cut and join the fewest nets.
///
/// Throws InputError if two ways fit equally well, or if there are too many ways to try.
void match_by_fit(const Board& board, const Netlist& meant, const Netlist& drawn,
                  std::vector<PortMatch>& matches);

}  // namespace pinfold
