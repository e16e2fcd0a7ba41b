#include "breakout/routes.hpp"

#include <algorithm>
#include <tuple>

namespace pinfold {

std::vector<Route> routes_of(std::vector<Candidate> wires) {
    std::ranges::sort(wires, {},
                      [](const Candidate& w) { return std::tie(w.mouths[1], w.mouths[0]); });
    std::vector<std::pair<Candidate, std::size_t>> placed;
    for (std::size_t place = 0; place < wires.size(); ++place) {
        placed.emplace_back(wires[place], place);
    }
    std::ranges::sort(placed, {}, [](const auto& one) {
        return std::tie(one.first.mouths[0], one.first.mouths[1]);
    });
    std::vector<Route> routes;
    for (const auto& [wire, place] : placed) routes.push_back({wire.net, wire.pads, place});
    return routes;
}

bool crosses(const std::vector<Route>& wires, std::size_t one, std::size_t other) {
    return wires[one].net != wires[other].net &&
           (one < other) != (wires[one].far_place < wires[other].far_place);
}

int count_crossings(const std::vector<Route>& wires) {
    int count = 0;
    for (std::size_t one = 0; one < wires.size(); ++one) {
        for (std::size_t other = one + 1; other < wires.size(); ++other) {
            count += crosses(wires, one, other) ? 1 : 0;
        }
    }
    return count;
}

}  // namespace pinfold
