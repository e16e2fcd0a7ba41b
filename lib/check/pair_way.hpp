// The way of a pair: what each of its halves meets from port to port, board by board.
#pragma once

#include <optional>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// Copper on one board, between two of its contacts.
struct TraceLeg {
    ContactRef from, to;
    std::optional<Millimetres> length;  ///< as the board's file says
};

/// What lies before a ribbon, between two, or behind the last.
struct Landing {
    std::vector<TraceLeg> traces;
    std::vector<std::size_t> leads;  ///< in the design; of leads side by side the first
};

/// A ribbon on the way, entered at one end, on one conductor.
struct RibbonLeg {
    std::size_t ribbon = 0;
    bool from_a = true;
    ConductorNumber conductor{1};
};

/// What a half meets from port to port.
struct HalfWay {
    std::vector<RibbonLeg> ribbons;
    std::vector<Landing> landings{1};  ///< one more than ribbons

    bool over_leads() const;
};

struct PairWay {
    std::size_t carry = 0;
    std::size_t pair = 0;  ///< in the interface of the near port
    HalfWay plus, minus;
};

/// The ways of all data and clock pairs whose halves both arrive, by promise, then by pair.
std::vector<PairWay> pair_ways(const Design& design, const Wiring& wiring);

}  // namespace pinfold
