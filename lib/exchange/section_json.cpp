#include "exchange/section_json.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "physics/field.hpp"
#include "physics/pair_impedance.hpp"
#include "physics/validity.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json rows_of(const Eigen::MatrixXd& matrix) {
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
        Json row = Json::array();
        for (Eigen::Index j = 0; j < matrix.cols(); ++j) row.push_back(matrix(i, j));
        rows.push_back(std::move(row));
    }
    return rows;
}

std::size_t place_in(const std::vector<std::size_t>& signals, std::size_t conductor) {
    return static_cast<std::size_t>(std::ranges::find(signals, conductor) - signals.begin());
}

Json pair_json(const Section& section, const SectionPair& pair, const PerMetre& line,
               const std::vector<std::size_t>& signals) {
    const PairImpedance found =
        pair_impedance(line, place_in(signals, pair.plus), place_in(signals, pair.minus));
    return {{"plus", section.conductors[pair.plus].name},
            {"minus", section.conductors[pair.minus].name},
            {"z_diff_ohm", found.z_diff},
            {"z_common_ohm", found.z_common},
            {"delay_ps_per_m", found.delay * 1e12},
            {"z_diff_matched_ohm", found.z_diff_matched},
            {"coupling", found.coupling},
            {"effective_permittivity", effective_permittivity(found.delay)}};
}

Json single_json(const Section& section, std::size_t conductor, const PerMetre& line,
                 const std::vector<std::size_t>& signals) {
    const SingleImpedance found = single_impedance(line, place_in(signals, conductor));
    return {{"conductor", section.conductors[conductor].name},
            {"z_ohm", found.z},
            {"delay_ps_per_m", found.delay * 1e12},
            {"effective_permittivity", effective_permittivity(found.delay)}};
}

}  // namespace

std::string section_json(const Section& section, const FieldSolution& solution) {
    const std::vector<std::size_t> signals = signals_of(section);
    const PerMetre line = per_metre(solution, section.ground);
    Json json{{"schema", "pinfold-section/1"}, {"conductors", Json::array()}};
    for (std::size_t i : signals) json["conductors"].push_back(section.conductors[i].name);
    json["capacitance_f_per_m"] = rows_of(line.capacitance);
    json["capacitance_vacuum_f_per_m"] = rows_of(line.capacitance_vacuum);
    json["inductance_h_per_m"] = rows_of(line.inductance);
    if (section.frequency) {
        json["frequency_hz"] = section.frequency->value();
        json["resistance_ohm_per_m"] = rows_of(line.resistance(*section.frequency));
        json["conductance_s_per_m"] = rows_of(line.conductance(*section.frequency));
    }
    json["pairs"] = Json::array();
    for (const SectionPair& pair : section.pairs) {
        json["pairs"].push_back(pair_json(section, pair, line, signals));
    }
    json["singles"] = Json::array();
    for (const std::size_t conductor : singles_of(section)) {
        json["singles"].push_back(single_json(section, conductor, line, signals));
    }
    json["error_estimate"] = solution.error_estimate;
    if (section.frequency) json["skin_resistance_error"] = recession_error;
    json["unknowns"] = solution.unknowns;
    json["valid_to_hz"] = quasi_static_limit(section, line).value();
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
