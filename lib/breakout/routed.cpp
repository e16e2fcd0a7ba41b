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
