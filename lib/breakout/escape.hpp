// The escape: which pads of two facing rows are joined by which wires, with the fewest crossings.
#pragma once

#include "breakout/exits.hpp"

namespace pinfold {

/// Joins a pad of the near row to one of the far row.
struct Route {
    std::size_t net = 0;                ///< in the board's nets
    std::array<std::size_t, 2> pads{};  ///< by side, in its pads
    std::size_t far_place = 0;          ///< among all wires at the far row, counted from the left
};

/// A choice of exits and wires.
struct Escape {
    std::array<std::vector<std::optional<Exit>>, 2> exits;  ///< by side and pad; none: no wire
    std::vector<Route> wires;                               ///< from the left at the near row
    int crossings = 0;
    int bound = 0;         ///< no choice crosses less
    int unders = 0;        ///< exits on the bottom layer
    int unders_bound = 0;  ///< none that crosses as little has fewer
    bool proved() const { return bound == crossings && unders_bound == unders; }
};

/// Whether two wires lie the other way round at the far row. If they are of different nets they
/// then cross at least once, however they are drawn.
bool crosses(const std::vector<Route>& wires, std::size_t one, std::size_t other);

/// Crossings that no drawing of these wires can do without: pairs of different nets that cross.
int count_crossings(const std::vector<Route>& wires);

/// Finds the exits and wires with the fewest crossings, and of those that with the fewest exits on
/// the bottom layer, by branch and bound over all exits and, for nets with several pads on both
/// sides, over all trees (`tree_shapes`). A crossing costs more than such an exit: one
/// of the two wires has to change layer for it, and slits the plane as well.
///
/// Nets on one side alone and grounds have no wires. Among equal choices the first one in the order
/// of `exits_of` is taken. After `most_steps` looks at a net the best so far is given with its
/// bound. Throws InputError for a contact that has no way out.
Escape fewest_crossings(const PadRows& rows, int most_steps = 1'000'000);

}  // namespace pinfold
