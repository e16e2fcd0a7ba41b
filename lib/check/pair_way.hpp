// The ways of pairs and singles: what a conductor's signal meets from port to port.
// Board by board.
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

/// What a half, or a single, meets from port to port.
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

struct SingleWay {
    std::size_t carry = 0;
    std::size_t signal = 0;  ///< in the interface of the near port
    HalfWay way;
};

/// The ways of all data and clock pairs whose halves both arrive, by promise, then by pair.
std::vector<PairWay> pair_ways(const Design& design, const Wiring& wiring);

/// The ways of all single signals that arrive, presence among them.
std::vector<SingleWay> single_ways(const Design& design, const Wiring& wiring);

/// Of those the ones known to be fast: of a promise that states a rate and has no data or clock
/// pair to which that would belong.
std::vector<SingleWay> fast_single_ways(const Design& design, const Wiring& wiring);

}  // namespace pinfold
