#include "order/too_many.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pinfold {

NoOrder too_many(const Ribbon& ribbon, const std::vector<CargoNet>& nets, const Besides& besides) {
    std::vector<std::pair<int, std::string>> demands;
    int signals = 0;
    for (const CargoNet& net : nets) {
        if (net.role == Role::supply) {
            demands.emplace_back(
                net.conductors, fmt::format("{} needs {} ({})", net.name, net.conductors, net.why));
        } else {
            signals += net.conductors;
        }
    }
    demands.emplace_back(signals, fmt::format("signals need {}, one each", signals));
    if (besides.grounds > 0) {
        demands.emplace_back(besides.grounds,
                             fmt::format("ground needs {} ({})", besides.grounds, besides.why));
    }
    if (besides.open > 0) {
        demands.emplace_back(besides.open,
                             fmt::format("{} stay open, as the file says", besides.open));
    }
    std::ranges::stable_sort(demands, std::ranges::greater{}, &std::pair<int, std::string>::first);
    NoOrder none{{fmt::format("{} has {} conductors", ribbon.name, ribbon.conductors)}};
    for (int sum = 0; const auto& [count, text] : demands) {
        none.rules.push_back(text);
        if ((sum += count) > ribbon.conductors) break;
    }
    return none;
}

}  // namespace pinfold
