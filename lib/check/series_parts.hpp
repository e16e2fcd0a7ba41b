// Parts in series: two-pad parts of a netlist that stand in a net the board has in one piece.
#pragma once

#include "check/compare.hpp"

namespace pinfold {

struct SeriesParts {
    std::vector<std::size_t> net;  ///< per net of the netlist: the net it is one with
    Findings findings;             ///< one for each part in series
};

/// Joins nets of the netlist over two-pad parts the board does not know, where all pads of both
/// nets belong to one net of the board. Parts between two nets of the board join nothing.
SeriesParts join_series_parts(const Netlist& meant, const Netlist& drawn,
                              const std::vector<PortMatch>& ports, const Board& board);

}  // namespace pinfold
