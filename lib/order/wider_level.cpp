#include <algorithm>

#include "order/node_index.hpp"

namespace pinfold {

Level without_obligations(const Level& level) {
    Level wider;
    wider.aim = level.aim;
    wider.group_of = level.group_of;
    wider.first_class = level.first_class;
    wider.stride = level.stride;
    wider.count = level.count;
    NodeIndex index(wider.nodes);
    std::vector<std::uint32_t> to(level.nodes.size(), 0);
    std::vector<char> reached(level.nodes.size(), 0);
    std::vector<std::vector<Arc>> arcs;
    const auto place_of = [&](std::uint32_t n) {
        Node bare = level.nodes[n];
        bare.obligations = 0;
        bare.to_go = 0;
        const auto [number, is_new] = index.find(bare);
        if (is_new) arcs.emplace_back();
        return to[n] = number;
    };
    // Nodes stand in order of discovery: a child always after some node that leads to it, and
    // every node with all that lead to it earlier in conductors. Walk by conductor.
    std::vector<std::uint32_t> order(level.nodes.size());
    for (std::uint32_t n = 0; n < order.size(); ++n) order[n] = n;
    std::ranges::stable_sort(order, {}, [&](std::uint32_t n) { return level.nodes[n].conductor; });
    if (!order.empty()) reached[order.front()] = 1;
    for (const std::uint32_t n : order) {
        const Node& node = level.nodes[n];
        if (!reached[n] || node.to_go >= unreachable) continue;
        const std::uint32_t from = place_of(n);
        for (std::uint32_t a = node.first_arc; a < node.first_arc + node.arcs; ++a) {
            const Arc& arc = level.arcs[a];
            if (!level.is_best(node, arc)) continue;
            reached[arc.child] = 1;
            const Arc bare{place_of(arc.child), 0, {arc.step.group, 0, 0, false}};
            const bool is_known = std::ranges::any_of(arcs[from], [&](const Arc& known) {
                return known.child == bare.child && known.step.group == bare.step.group;
            });
            if (!is_known) arcs[from].push_back(bare);
        }
    }
    for (std::size_t n = 0; n < wider.nodes.size(); ++n) {
        wider.nodes[n].first_arc = static_cast<std::uint32_t>(wider.arcs.size());
        wider.nodes[n].arcs = static_cast<std::uint32_t>(arcs[n].size());
        wider.arcs.insert(wider.arcs.end(), arcs[n].begin(), arcs[n].end());
    }
    wider.best = 0;
    return wider;
}

}  // namespace pinfold
