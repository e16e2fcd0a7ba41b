#include "exchange/power_json.hpp"

#include <nlohmann/json.hpp>

#include "exchange/finding_json.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

template <class Q>
Json or_null(const std::optional<Q>& value) {
    return value ? Json(value->value()) : Json(nullptr);
}

Json feed_json(const Design& design, const Feed& feed) {
    Json json{{"carry", design.carries[feed.carry].name},
              {"supply", feed.supply},
              {"settles", feed.settles},
              {"power_w", or_null(feed.power)},
              {"given_v", or_null(feed.given)},
              {"arriving_v", or_null(feed.arriving)},
              {"least_v", or_null(feed.least)}};
    const auto solved = [&](double value) { return feed.settles ? Json(value) : Json(nullptr); };
    json["current_a"] = solved(feed.current.value());
    json["drop_out_v"] = solved(feed.drop_out.value());
    json["drop_back_v"] = solved(feed.drop_back.value());
    json["deliverable_w"] = feed.settles ? Json(nullptr) : Json(feed.deliverable.value());
    return json;
}

Json split_json(const DropSplit& split) {
    return {{"conductors_v", split.conductors.value()},
            {"contacts_v", split.contacts.value()},
            {"leads_v", split.leads.value()},
            {"traces_v", split.traces.value()}};
}

Json opened_json(const Design& design, const Wiring& wiring, const OpenContacts& opened) {
    const auto name = [&](std::size_t link) {
        return wiring.name_of(wiring.links()[link].one, design);
    };
    Json json{{"untried", opened.untried}, {"lowest", Json::array()}, {"hardest", Json::array()}};
    for (const LowestOpen& lowest : opened.lowest) {
        json["lowest"].push_back(
            {{"open", name(lowest.open)}, {"feed", feed_json(design, lowest.then)}});
    }
    for (const HardestOpen& hardest : opened.hardest) {
        json["hardest"].push_back({{"open", name(hardest.open)},
                                   {"link", name(hardest.load.link)},
                                   {"current_a", hardest.load.current.value()},
                                   {"derated_a", hardest.limit.derated.value()}});
    }
    return json;
}

const char* name_of(LinkKind kind) {
    if (kind == LinkKind::conductor) return "conductor";
    if (kind == LinkKind::copper) return "trace";
    return kind == LinkKind::lead ? "lead" : "contact";
}

Json rise_json(const LoadedLink& loaded) {
    if (loaded.trace_rise) {
        return {{"rise_k", loaded.trace_rise->rise.value()},
                {"in_range", loaded.trace_rise->in_range}};
    }
    if (!loaded.rise) return nullptr;
    return {{"settles", loaded.rise->settles},
            {"rise_k", loaded.rise->settles ? Json(loaded.rise->rise.value()) : Json(nullptr)}};
}

Json link_json(const Design& design, const Wiring& wiring, const LoadedLink& loaded) {
    const Link& link = wiring.links()[loaded.load.link];
    return {{"kind", name_of(link.kind)},
            {"from", wiring.name_of(link.one, design)},
            {"to", far_end_of(design, wiring, link)},
            {"current_a", loaded.load.current.value()},
            {"rating_a", loaded.limit ? Json(loaded.limit->rating.value()) : Json(nullptr)},
            {"derated_a", loaded.limit ? Json(loaded.limit->derated.value()) : Json(nullptr)},
            {"resistance_ohm", loaded.load.resistance.value()},
            {"heat_w", loaded.load.heat().value()},
            {"rise", rise_json(loaded)}};
}

Json case_json(const Budget& budget, const BudgetCase& at) {
    Json json{{"level", name_of(at.level)}, {"battery", name_of(at.end)}, {"settles", at.settles},
              {"batteries", Json::array()}, {"stages", Json::array()},    {"loads", Json::array()}};
    if (!at.settles) return json;
    for (std::size_t i = 0; i < at.batteries.size(); ++i) {
        json["batteries"].push_back({{"name", budget.batteries[i].name},
                                     {"terminals_v", at.batteries[i].terminals.value()},
                                     {"current_a", at.batteries[i].current.value()},
                                     {"from_cells_w", at.batteries[i].from_cells.value()}});
    }
    for (std::size_t i = 0; i < at.stages.size(); ++i) {
        json["stages"].push_back({{"name", budget.stages[i].name},
                                  {"input_v", at.stages[i].input.value()},
                                  {"input_a", at.stages[i].input_current.value()},
                                  {"output_v", budget.stages[i].output.value()},
                                  {"output_a", at.stages[i].output_current.value()}});
    }
    for (std::size_t i = 0; i < at.loads.size(); ++i) {
        json["loads"].push_back({{"name", budget.loads[i].name},
                                 {"power_w", at.loads[i].power.value()},
                                 {"voltage_v", at.loads[i].voltage.value()},
                                 {"current_a", at.loads[i].current.value()}});
    }
    return json;
}

Json budget_json(const Design& design, const BudgetResult& result) {
    Json json{{"cases", Json::array()}, {"runtimes", Json::array()}};
    for (const BudgetCase& at : result.cases) json["cases"].push_back(case_json(design.budget, at));
    for (const Runtime& runtime : result.runtimes) {
        json["runtimes"].push_back({{"level", name_of(runtime.level)},
                                    {"battery", design.budget.batteries[runtime.battery].name},
                                    {"time_h", runtime.time.value()}});
    }
    return json;
}

}  // namespace

std::string power_json(const Design& design, const Wiring& wiring, const Power& power) {
    Json json{{"schema", "pinfold-power/1"},
              {"design", design.file},
              {"clean", !has_errors(power.findings)},
              {"findings", Json::array()},
              {"feeds", Json::array()},
              {"links", Json::array()}};
    for (const Finding& f : power.findings) json["findings"].push_back(finding_json(f));
    for (std::size_t i = 0; i < power.feeds.feeds.size(); ++i) {
        const Feed& feed = power.feeds.feeds[i];
        json["feeds"].push_back(feed_json(design, feed));
        json["feeds"].back()["drop_split"] =
            feed.settles ? split_json(power.splits[i]) : Json(nullptr);
    }
    for (const LoadedLink& l : power.links) json["links"].push_back(link_json(design, wiring, l));
    json["one_contact_open"] = opened_json(design, wiring, power.opened);
    json["heat_w"] = power.heat.value();
    json["budget"] = design.budget.is_empty() ? Json(nullptr) : budget_json(design, power.budget);
    json["cautions"] = power_cautions(design);
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
