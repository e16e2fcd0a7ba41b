#include "breakout/routed.hpp"

#include <map>

namespace pinfold {

bool cross(const Candidate& one, const Candidate& other) {
    if (one.net == other.net) return false;
    return (one.mouths[0] < other.mouths[0]) != (one.mouths[1] < other.mouths[1]);
}

int crossings_with(const Candidate& wire, const std::vector<Candidate>& others) {
    return static_cast<int>(
        std::ranges::count_if(others, [&](const Candidate& other) { return cross(wire, other); }));
}

int crossings_with(const Tree& tree, const std::vector<Candidate>& others) {
    int count = 0;
    for (const Candidate& wire : tree) count += crossings_with(wire, others);
    return count;
}

int fewest_of(const std::vector<Tree>& trees, const std::vector<Candidate>& others) {
    int fewest = std::numeric_limits<int>::max();
    for (const Tree& tree : trees) fewest = std::min(fewest, crossings_with(tree, others));
    return fewest;
}

std::vector<Tree> trees_on(const Routed& net, const PadRows& rows,
                           const std::array<std::vector<std::optional<Exit>>, 2>& exits,
                           std::span<const TreeShape> shapes) {
    const auto mouth = [&](std::size_t side, std::size_t pad) {
        return mouthing_of(rows.sides[side], pad, *exits[side][pad]);
    };
    std::array<std::vector<std::size_t>, 2> pads = net.pads;
    for (const std::size_t side : {0, 1}) {
        std::ranges::sort(pads[side], {}, [&](std::size_t pad) { return mouth(side, pad); });
    }
    std::vector<Tree> trees(shapes.size());
    for (std::size_t t = 0; t < trees.size(); ++t) {
        for (const auto& wire : shapes[t]) {
            const std::size_t near = pads[0][wire.first], far = pads[1][wire.second];
            trees[t].push_back({net.net, {near, far}, {mouth(0, near), mouth(1, far)}});
        }
    }
    return trees;
}

std::vector<Routed> routed_nets(const PadRows& rows) {
    std::map<std::size_t, Routed> nets;
    for (const std::size_t side : {0, 1}) {
        for (std::size_t p = 0; p < rows.sides[side].pads.size(); ++p) {
            const RowPad& pad = rows.sides[side].pads[p];
            if (pad.ground || !pad.net) continue;
            nets[*pad.net].net = *pad.net;
            nets[*pad.net].pads[side].push_back(p);
        }
    }
    std::vector<Routed> routed;
    for (auto& [net, pads] : nets) {
        if (!pads.pads[0].empty() && !pads.pads[1].empty()) routed.push_back(std::move(pads));
    }
    return routed;
}

}  // namespace pinfold
