#include "exchange/line_json.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "exchange/csv.hpp"
#include "exchange/finding_json.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json ohms(const std::optional<Ohms>& value) { return value ? Json(value->value()) : Json(nullptr); }

Json positive(Hertz frequency) {
    return frequency.value() > 0.0 ? Json(frequency.value()) : Json(nullptr);
}

Json pair_json(const PairLine& pair) {
    Json json{{"pair", pair.name},
              {"ribbon", pair.ribbon},
              {"z_diff_ohm", pair.worst.z_diff},
              {"z_common_ohm", pair.worst.z_common},
              {"z_diff_matched_ohm", pair.worst.z_diff_matched},
              {"delay_ps", pair.delay.value()},
              {"skew_ps", pair.skew.value()},
              {"least_z_diff_ohm", ohms(pair.least_impedance)},
              {"most_z_diff_ohm", ohms(pair.most_impedance)}};
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
        json["eye_alone_v_per_v"] = result.eye_alone;
        json["eye_width_ui"] = result.eye.width.value();
    }
    return json;
}

Json group_json(const Design& design, const LineGroup& group) {
    const Carry& promise = design.carries[group.carry];
    Json json{{"promise", promise.name},
              {"rate_gbit_per_s", promise.rate ? Json(promise.rate->value()) : Json(nullptr)},
              {"ribbons", group.ribbons},
              {"ground_resonance_hz", positive(group.ground_resonance)},
              {"valid_to_hz", positive(group.valid_to)},
              {"error_estimate", group.error_estimate},
              {"uncounted_ribbons", group.uncounted},
              {"pairs", Json::array()}};
    for (const PairLine& pair : group.pairs) json["pairs"].push_back(pair_json(pair));
    return json;
}

std::string cell(double value) { return fmt::format("{:.4g}", value); }

}  // namespace

std::string line_json(const Design& design, const std::vector<LineGroup>& groups,
                      const Findings& findings) {
    Json json{{"schema", "pinfold-line/1"},
              {"design", design.file},
              {"lines", Json::array()},
              {"findings", Json::array()}};
    for (const LineGroup& group : groups) json["lines"].push_back(group_json(design, group));
    for (const Finding& finding : findings) json["findings"].push_back(finding_json(finding));
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string line_csv(const Design& design, const std::vector<LineGroup>& groups) {
    CsvRows rows{{"promise", "ribbons", "pair", "z_diff_ohm", "z_common_ohm", "delay_ps", "skew_ps",
                  "loss_at_nyquist_db", "crosstalk_db", "crosstalk_from", "eye_v_per_v",
                  "eye_width_ui"}};
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
            row.push_back(eye ? cell(pair.result->eye.opening) : "");
            row.push_back(eye ? cell(pair.result->eye.width.value()) : "");
            rows.push_back(std::move(row));
        }
    }
    return write_csv(rows);
}

}  // namespace pinfold
