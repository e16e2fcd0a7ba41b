// Trees: the ways to join the pads of one net on both sides by wires across the channel.
#pragma once

#include <utility>
#include <vector>

namespace pinfold {

/// Wires as pairs of near and far pad, each counted from the left among the net's own.
using TreeShape = std::vector<std::pair<std::size_t, std::size_t>>;

struct TreeShapes {
    std::vector<TreeShape> shapes;
    std::size_t planar = 0;  ///< the first so many do not cross themselves
    bool complete = true;    ///< else there are more than were asked for
};

/// Every tree that joins `near` pads to `far` ones, those first that do not cross themselves.
///
/// A tree that crosses itself can cross fewer others: its wires go round them. Their number is
/// near^(far - 1) far^(near - 1). Source: spanning trees of the complete bipartite graph (Scoins
/// 1962), from memory; counted in tests/breakout/trees.cpp.
TreeShapes tree_shapes(std::size_t near, std::size_t far, std::size_t most);

}  // namespace pinfold
