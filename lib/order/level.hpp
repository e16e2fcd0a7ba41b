// Levels: the graph of all orders that are best by the aims so far, and the next aim's cost on it.
#pragma once

#include <functional>
#include <optional>
#include <unordered_map>
#include <vector>

#include "order/classes.hpp"

namespace pinfold {

/// What one arc lays down: an item of a group, and what is guessed of the mirror places.
struct Step {
    std::uint8_t group = 0;
    std::uint8_t guess = 0;  ///< four bits a conductor: 0, or 1 + the supply that will lie opposite
    std::uint8_t item = 0;
    bool flipped = false;
};

struct Arc {
    std::uint32_t child = 0;
    std::int32_t cost = 0;
    Step step;
};

/// A part of an order: what has been laid from conductor 1 on, as far as it matters for the rest.
struct Node {
    std::uint64_t used = 0;  ///< how many of each group, in mixed radix
    std::array<std::uint64_t, 2> placed{};
    std::uint32_t parent = 0;              ///< the node of the level before
    std::uint32_t bound = 0;               ///< the node of the level that gives the lower bound
    std::uint32_t obligations = 0;         ///< what mirror places owe, by number
    std::array<std::uint8_t, 3> window{};  ///< classes last laid, nearest first, plus one
    std::uint8_t conductor = 0;
    std::int32_t so_far = 0;
    std::int32_t to_go = 0;
    std::uint32_t first_arc = 0;
    std::uint32_t arcs = 0;
};

constexpr std::int32_t unreachable = 1 << 30;

/// One level of the search.
struct Level {
    Aim aim = Aim::guards;
    std::vector<std::size_t> group_of;      ///< by class
    std::vector<std::size_t> first_class;   ///< by group: a class of it
    std::vector<std::uint64_t> stride;      ///< by group, in `Node::used`; 0 for pinned ones
    std::vector<int> count;                 ///< by group
    bool has_obligations = false;           ///< begins to watch the mirror places
    bool harmless = false;                  ///< watches that nothing is harmed in reverse
    bool has_items = false;                 ///< begins to tell items of one class apart
    bool items_known = false;               ///< this level or one before does
    std::vector<std::vector<int>> pending;  ///< obligations by number: conductor, what, ...
    std::vector<Node> nodes;                ///< in order of their conductors
    std::vector<Arc> arcs;
    std::int32_t best = unreachable;

    /// Arcs that are part of a best order once the node is.
    bool is_best(const Node& node, const Arc& arc) const {
        return arc.cost + nodes[arc.child].to_go == node.to_go;
    }
    int left(const Node& node, std::size_t group) const {
        if (stride[group] == 0) return 1;
        const auto radix = static_cast<std::uint64_t>(count[group]) + 1;
        return count[group] - static_cast<int>(node.used / stride[group] % radix);
    }
};

/// Why a level has no result.
enum class Outcome { done, impossible, stopped };

/// What a level is made on.
struct Ground {
    const OrderProblem& problem;
    const Classes& classes;
    const Level* before = nullptr;  ///< whose best arcs alone are followed
    const Level* bound = nullptr;   ///< the same aim on a wider graph: its costs to go bound these
    std::function<bool()> stop;
    std::size_t beam = 0;  ///< proves nothing: at each conductor only so many parts are followed
};

/// Lays out a level and finds the least cost of its aim along the best arcs of the one before.
/// On `stopped`, `best` is a cost that no order is below.
Outcome solve_level(const Ground& ground, const std::vector<Aim>& aims_so_far, Level& level);

/// The graph of a level with its watch on the mirror places forgotten: what may follow what.
Level without_obligations(const Level& level);

}  // namespace pinfold
