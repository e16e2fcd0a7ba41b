#include "exchange/order_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json number_json(Aim aim, std::int64_t value) {
    constexpr double slant = 0.41421356;  // more way at 45 degrees, by the way sideways
    if (aim == Aim::noise) return static_cast<double>(value) / 1000.0;
    if (aim == Aim::mismatch) return std::round(static_cast<double>(value) * slant) / 1000.0;
    return value;
}

Json figures_json(const OrderProblem& problem, const Figures& figures) {
    Json json = Json::object();
    for (const Aim aim : problem.ranking) {
        json[std::string(name_of(aim))] = number_json(aim, figure(figures, aim));
    }
    return json;
}

Json ribbon_json(const RibbonOrder& order) {
    const bool found = order.rules.empty();
    const Figures cost = order.drawn.value_or(order.best.cost);
    const bool best = found && order.best.proved && !order.split && cost == order.best.cost;
    Json json{{"ribbon", order.ribbon},
              {"conductors", order.conductors},
              {"chosen", order.chosen},
              {"proved", best},
              {"cost", found ? figures_json(order.problem, cost) : Json::object()},
              {"bound", found ? figures_json(order.problem, order.best.bound) : Json::object()},
              {"optima", order.best.optima ? Json(*order.best.optima) : Json(nullptr)},
              {"crossings", found ? Json(figure(cost, Aim::crossings)) : Json(nullptr)},
              {"seconds", std::round(order.seconds * 1e6) / 1e6},
              {"rules", order.rules}};
    return json;
}

}  // namespace

std::string order_json(const Ordering& ordering) {
    Json json{{"schema", "pinfold-order/1"}, {"orders", Json::array()}};
    for (const RibbonOrder& order : ordering.ribbons) json["orders"].push_back(ribbon_json(order));
    json["clean"] = ordering.has_order() && ordering.verdict.clean();
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
