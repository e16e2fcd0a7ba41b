// Routed nets: those with pads at both rows, the wires they may have, and what these cross.
#pragma once

#include <algorithm>
#include <limits>
#include <numeric>
#include <span>

#include "breakout/exits.hpp"
#include "breakout/trees.hpp"

namespace pinfold {

/// A wire while it is being chosen: where it is at both rows.
struct Candidate {
    std::size_t net = 0;
    std::array<std::size_t, 2> pads{};
    std::array<Mouthing, 2> mouths{};
};

/// Whether wires of two nets lie the other way round at the far row.
bool cross(const Candidate& one, const Candidate& other);

using Tree = std::vector<Candidate>;

int crossings_with(const Candidate& wire, const std::vector<Candidate>& others);
int crossings_with(const Tree& tree, const std::vector<Candidate>& others);

/// A net with pads on both sides.
struct Routed {
    std::size_t net = 0;
    std::array<std::vector<std::size_t>, 2> pads;
    bool is_single() const { return pads[0].size() == 1 && pads[1].size() == 1; }
};

/// The nets with pads on both sides that are not ground.
std::vector<Routed> routed_nets(const PadRows& rows);

/// Crossings of the one of some trees that crosses the others least.
int fewest_of(const std::vector<Tree>& trees, const std::vector<Candidate>& others);

/// A net's trees of these shapes, once the exits of all its pads are chosen.
std::vector<Tree> trees_on(const Routed& net, const PadRows& rows,
                           const std::array<std::vector<std::optional<Exit>>, 2>& exits,
                           std::span<const TreeShape> shapes);

/// Calls `take(near, far, cost)` for each wire of a tree between a net's pads with the least
/// sum of `cost(near, far)`: Prim's algorithm.
template <class Cost, class Take>
void each_of_least_tree(const Routed& net, const Cost& cost, const Take& take) {
    struct Way {
        int cost = std::numeric_limits<int>::max();
        std::size_t near = 0, far = 0;
    };
    const std::size_t nears = net.pads[0].size();
    std::vector<Way> ways(nears + net.pads[1].size());  // by pad, near ones first
    std::vector<std::size_t> waiting(ways.size());
    std::iota(waiting.begin(), waiting.end(), std::size_t{0});
    while (!waiting.empty()) {
        const auto next =
            std::ranges::min_element(waiting, {}, [&](std::size_t pad) { return ways[pad].cost; });
        const std::size_t joined = *next;
        waiting.erase(next);
        if (waiting.size() + 1 < ways.size()) {
            take(ways[joined].near, ways[joined].far, ways[joined].cost);
        }
        for (const std::size_t pad : waiting) {
            if ((pad < nears) == (joined < nears)) continue;
            const std::size_t near = net.pads[0][std::min(pad, joined)];
            const std::size_t far = net.pads[1][std::max(pad, joined) - nears];
            const Way way{cost(near, far), near, far};
            if (way.cost < ways[pad].cost) ways[pad] = way;
        }
    }
}

}  // namespace pinfold
