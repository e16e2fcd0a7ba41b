// Parts in series: parts of a netlist that stand in a net the board has in one piece.
#pragma once

#include "check/compare.hpp"

namespace pinfold {

struct SeriesParts {
    std::vector<std::size_t> net;  ///< per net of the netlist: the net it is one with
    Findings findings;             ///< one for each part in series, and for each that shorts
};

/// Joins nets of the netlist over parts the board does not know: a part of two pads, several of
/// them one after the other with nothing else between, or an array all of whose pads are in pairs,
/// where both ends belong to one net of the board. Parts between two nets of the board join
/// nothing; a part of no ohms there is told as `part-joins-nets`.
SeriesParts join_series_parts(const Netlist& meant, const Netlist& drawn,
                              const std::vector<PortMatch>& ports, const Board& board);

}  // namespace pinfold
