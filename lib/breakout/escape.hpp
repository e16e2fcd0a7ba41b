// The escape: which pads of two facing rows are joined by which wires, with the fewest crossings.
#pragma once

#include "breakout/routes.hpp"

namespace pinfold {

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
