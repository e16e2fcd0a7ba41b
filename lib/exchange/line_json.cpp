#include "exchange/line_json.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "exchange/csv.hpp"
#include "exchange/finding_json.hpp"
#include "physics/field.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json positive(Hertz frequency) {
    return frequency.value() > 0.0 ? Json(frequency.value()) : Json(nullptr);
}

Json pair_json(const LineGroup& group, const PairLine& pair) {
    const std::optional<ImpedanceWindow> window = window_of(group.limit);
    Json json{{"pair", pair.name},
              {"ribbon", pair.ribbon},
              {"z_diff_ohm", pair.worst.z_diff},
              {"z_common_ohm", pair.worst.z_common},
              {"z_diff_matched_ohm", pair.worst.z_diff_matched},
              {"effective_permittivity", effective_permittivity(pair.worst.delay)},
              {"coupling", pair.worst.coupling},
              {"delay_ps", pair.delay.value()},
              {"skew_ps", pair.skew.value()},
              {"least_z_diff_ohm", window ? Json(window->least.value()) : Json(nullptr)},
              {"most_z_diff_ohm", window ? Json(window->most.value()) : Json(nullptr)}};
    if (!pair.result) return json;
    const PairResult& result = *pair.result;
    json["loss_at_nyquist_db"] = result.loss.value();
    json["reflection_db"] = result.reflection.value();
    json["conversion_db"] = result.conversion.value();
    if (!pair.aggressor.empty()) {
        json["crosstalk_db"] = pair.crosstalk.value();
        json["crosstalk_from"] = pair.aggressor;
        json["crosstalk_power_sum_db"] = result.crosstalk_power.value();
        json["crosstalk_voltage_sum_db"] = result.crosstalk_voltage.value();
    }
    if (pair.listened) {
        json["eye_v_per_v"] = result.eye.opening;
        json["eye_v"] = group.eye_of(pair).value();
        json["eye_alone_v_per_v"] = result.eye_alone;
        json["eye_width_ui"] = result.eye.width.value();
    }
    json["faults"] = Json::array();
    for (const LineFault fault : faults_of(group, pair)) json["faults"].push_back(name_of(fault));
    return json;
}

Json traces_json(const LineGroup& group) {
    Json json = Json::array();
    for (const TracesOnBoard& traces : group.traces) {
        json.push_back({{"board", traces.board},
                        {"pair", traces.pair},
                        {"z_diff_ohm", traces.impedance.z_diff},
                        {"z_common_ohm", traces.impedance.z_common},
                        {"delay_ps_per_mm", 1e9 * traces.impedance.delay}});
    }
    return json;
}

template <class Unit>
Json figure_json(const std::optional<Quantity<Unit>>& value) {
    return value ? Json(value->value()) : Json(nullptr);
}

Json limits_json(const std::optional<Limit>& limit) {
    if (!limit) return nullptr;
    return {{"loss_db", figure_json(limit->loss)},
            {"crosstalk_below_db", figure_json(limit->crosstalk_below)},
            {"least_swing_v", figure_json(limit->least_swing)},
            {"least_eye_v", figure_json(limit->least_eye)},
            {"least_eye_width_ui", figure_json(limit->least_eye_width)},
            {"source", limit->source}};
}

Json group_json(const Design& design, const LineGroup& group) {
    const Carry& promise = design.carries[group.carry];
    Json json{{"promise", promise.name},
              {"rate_gbit_per_s", promise.rate ? Json(promise.rate->value()) : Json(nullptr)},
              {"ribbons", group.ribbons},
              {"ground_resonance_hz", positive(group.ground_resonance)},
              {"valid_to_hz", positive(group.valid_to)},
              {"error_estimate", group.error_estimate},
              {"skin_resistance_error", recession_error},
              {"heard_too", group.heard},
              {"uncounted_ribbons", group.uncounted},
              {"sent_v", group.swing().value()},
              {"limits", limits_json(group.limit)},
              {"traces", traces_json(group)},
              {"pairs", Json::array()}};
    for (const PairLine& pair : group.pairs) json["pairs"].push_back(pair_json(group, pair));
    return json;
}

Json figures_json(const LineFigures& figures) {
    return {{"faults", figures.faults},
            {"z_diff_ohm", figures.z_diff},
            {"crosstalk_power_sum_db", figures.crosstalk.value()},
            {"eye_v", figures.eye.value()}};
}

Json changes_json(const std::vector<LineChange>& changes) {
    Json list = Json::array();
    for (const LineChange& change : changes) {
        Json json{{"change", change.text}};
        json.update(figures_json(change.figures));
        list.push_back(std::move(json));
    }
    return list;
}

Json single_json(const Design& design, const SingleLine& single) {
    return {{"promise", design.carries[single.carry].name},
            {"signal", single.signal},
            {"ribbon", design.ribbons[single.ribbon].name},
            {"z_ohm", single.impedance.z},
            {"effective_permittivity", effective_permittivity(single.impedance.delay)},
            {"delay_ps", single.delay.value()}};
}

std::string cell(double value) { return fmt::format("{:.4g}", value); }

}  // namespace

std::string line_json(const Design& design, const std::vector<LineGroup>& groups,
                      const std::vector<SingleLine>& singles,
                      const std::vector<std::vector<LineChange>>& changes,
                      const Findings& findings) {
    Json json{{"schema", "pinfold-line/1"},
              {"design", design.file},
              {"lines", Json::array()},
              {"singles", Json::array()},
              {"findings", Json::array()}};
    for (std::size_t g = 0; g < groups.size(); ++g) {
        json["lines"].push_back(group_json(design, groups[g]));
        if (changes.empty()) continue;
        json["lines"].back()["worst"] = figures_json(figures_of(groups[g]));
        json["lines"].back()["changes"] = changes_json(changes[g]);
    }
    for (const SingleLine& single : singles) {
        json["singles"].push_back(single_json(design, single));
    }
    for (const Finding& finding : findings) json["findings"].push_back(finding_json(finding));
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string line_csv(const Design& design, const std::vector<LineGroup>& groups) {
    CsvRows rows{{"promise", "ribbons", "pair", "z_diff_ohm", "z_common_ohm", "delay_ps", "skew_ps",
                  "loss_at_nyquist_db", "crosstalk_db", "crosstalk_from", "crosstalk_power_sum_db",
                  "eye_v_per_v", "eye_v", "eye_width_ui", "faults"}};
    for (const LineGroup& group : groups) {
        for (const PairLine& pair : group.pairs) {
            std::vector<std::string> row{design.carries[group.carry].name,
                                         fmt::format("{}", fmt::join(group.ribbons, " ")),
                                         pair.name,
                                         cell(pair.worst.z_diff),
                                         cell(pair.worst.z_common),
                                         cell(pair.delay.value()),
                                         cell(pair.skew.value())};
            const bool eye = pair.result && pair.listened;
            const bool heard = pair.result && !pair.aggressor.empty();
            row.push_back(pair.result ? cell(pair.result->loss.value()) : "");
            row.push_back(heard ? cell(pair.crosstalk.value()) : "");
            row.push_back(heard ? pair.aggressor : "");
            row.push_back(heard ? cell(pair.result->crosstalk_power.value()) : "");
            row.push_back(eye ? cell(pair.result->eye.opening) : "");
            row.push_back(eye ? cell(group.eye_of(pair).value()) : "");
            row.push_back(eye ? cell(pair.result->eye.width.value()) : "");
            std::vector<std::string_view> faults;
            for (const LineFault fault : faults_of(group, pair)) faults.push_back(name_of(fault));
            row.push_back(fmt::format("{}", fmt::join(faults, ", ")));
            rows.push_back(std::move(row));
        }
    }
    return write_csv(rows);
}

}  // namespace pinfold
