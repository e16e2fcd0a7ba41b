// Routes: the wires of a breakout as they are told, by their places at both rows.
#pragma once

#include "breakout/routed.hpp"

namespace pinfold {

/// Joins a pad of the near row to one of the far row.
struct Route {
    std::size_t net = 0;                ///< in the board's nets
    std::array<std::size_t, 2> pads{};  ///< by side, in its pads
    std::size_t far_place = 0;          ///< among all wires at the far row, counted from the left
};

/// Wires that were chosen, in their order from the left at the near row.
std::vector<Route> routes_of(std::vector<Candidate> wires);

/// Whether two wires lie the other way round at the far row. If they are of different nets they
/// then cross at least once, however they are drawn.
bool crosses(const std::vector<Route>& wires, std::size_t one, std::size_t other);

/// Crossings that no drawing of these wires can do without: pairs of different nets that cross.
int count_crossings(const std::vector<Route>& wires);

}  // namespace pinfold
