#include "exchange/order_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "exchange/breakout_json.hpp"

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

std::string_view kind_of(const OrderItem& item) {
    switch (item.kind) {
        case OrderItem::Kind::pair: return "pair";
        case OrderItem::Kind::single: return "single";
        case OrderItem::Kind::supply: return "supply";
        case OrderItem::Kind::ground: return "ground";
        case OrderItem::Kind::open: return "open";
    }
    return "";
}

Json item_json(const OrderItem& item, const std::vector<std::size_t>& supplies) {
    Json names = Json::array(), pads = Json::array(), withstands = Json::array();
    for (std::size_t half = 0; half < static_cast<std::size_t>(item.width()); ++half) {
        names.push_back(item.names[half]);
        pads.push_back({item.pads[0][half], item.pads[1][half]});
    }
    for (std::size_t s = 0; s < supplies.size(); ++s) {
        if ((item.withstands >> s & 1U) != 0) withstands.push_back(supplies[s]);
    }
    return {{"kind", kind_of(item)},           {"names", names},
            {"copies", item.copies},           {"fast", item.fast},
            {"withstands", withstands},        {"strength", item.strength},
            {"sensitivity", item.sensitivity}, {"pads_um", pads}};
}

Json problem_json(const OrderProblem& problem) {
    Json json{{"conductors", problem.conductors},
              {"pitch_um", problem.pitch_um},
              {"shift", problem.shift},
              {"ranking", Json::array()},
              {"coupling", problem.coupling.weight},
              {"items", Json::array()},
              {"fixed", Json::array()}};
    for (const Aim aim : problem.ranking) json["ranking"].push_back(name_of(aim));
    const std::vector<std::size_t> supplies = supplies_of(problem);
    for (const OrderItem& item : problem.items) json["items"].push_back(item_json(item, supplies));
    for (const FixedPlace& fixed : problem.fixed) {
        json["fixed"].push_back(
            {{"conductor", fixed.conductor + 1}, {"item", fixed.item}, {"half", fixed.half}});
    }
    return json;
}

Json laid_json(const ConductorOrder& order) {
    Json json = Json::array();
    for (const Laid& laid : order) json.push_back({laid.item, laid.half});
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
              {"rules", order.rules},
              {"weights", order.problem.coupling.source}};
    if (!found) return json;
    json["problem"] = problem_json(order.problem);
    json["best"] = laid_json(order.best.order);
    return json;
}

}  // namespace

std::string order_problem_json(const OrderProblem& problem, const BestOrder& best) {
    const Json json{{"problem", problem_json(problem)},
                    {"best", laid_json(best.order)},
                    {"cost", best.cost},
                    {"bound", best.bound},
                    {"proved", best.proved}};
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string order_json(const Ordering& ordering) {
    Json json{{"schema", "pinfold-order/1"}, {"orders", Json::array()}};
    for (const RibbonOrder& order : ordering.ribbons) json["orders"].push_back(ribbon_json(order));
    json["breakouts"] = ordering.has_order() ? breakouts_json(ordering.design) : Json::array();
    json["clean"] = ordering.has_order() && ordering.verdict.clean();
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
