#include "document/section_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "document/table_words.hpp"
#include "physics/field.hpp"
#include "physics/pair_impedance.hpp"
#include "physics/validity.hpp"

namespace pinfold {
namespace {

/// A page's worth; JSON has them all.
constexpr Eigen::Index most_shown = 12;

std::string rest_text(Eigen::Index shown, Eigen::Index count) {
    if (shown == count) return {};
    return fmt::format("    the first {} of {}; --format json has all\n", shown, count);
}

std::string matrix_text(const Section& section, const std::string& title,
                        const Eigen::MatrixXd& matrix, double unit) {
    const std::vector<std::size_t> signals = signals_of(section);
    const Eigen::Index shown = std::min(matrix.rows(), most_shown);
    Rows rows{{""}};
    for (Eigen::Index i = 0; i < shown; ++i) {
        const std::string& name = section.conductors[signals[static_cast<std::size_t>(i)]].name;
        rows.front().push_back(name);
        rows.push_back({name});
        for (Eigen::Index j = 0; j < shown; ++j) {
            rows.back().push_back(fmt::format("{:.5g}", matrix(i, j) / unit));
        }
    }
    std::string text = fmt::format("\n{}\n{}", title, in_columns(rows, "    "));
    return text + rest_text(shown, matrix.rows());
}

/// Of a conductor in the matrices.
std::size_t place_of(const std::vector<std::size_t>& signals, std::size_t conductor) {
    return static_cast<std::size_t>(std::ranges::find(signals, conductor) - signals.begin());
}

std::string pairs_text(const Section& section, const PerMetre& line) {
    if (section.pairs.empty()) return {};
    const std::vector<std::size_t> signals = signals_of(section);
    Rows rows{{"pair", "Z diff", "Z common", "delay", "er eff", "Z diff matched", "coupling"}};
    for (const SectionPair& pair : section.pairs) {
        const PairImpedance found =
            pair_impedance(line, place_of(signals, pair.plus), place_of(signals, pair.minus));
        rows.push_back({fmt::format("{} / {}", section.conductors[pair.plus].name,
                                    section.conductors[pair.minus].name),
                        fmt::format("{:.2f} ohm", found.z_diff),
                        fmt::format("{:.2f} ohm", found.z_common),
                        fmt::format("{:.0f} ps/m", found.delay * 1e12),
                        fmt::format("{:.3f}", effective_permittivity(found.delay)),
                        fmt::format("{:.2f} ohm", found.z_diff_matched),
                        fmt::format("{:.4f}", found.coupling)});
    }
    return "\nPairs\n" + in_columns(rows, "    ") +
           in_lines(
               "Z diff, Z common, delay and coupling: every other signal conductor held at "
               "ground. er eff: the permittivity of the uniform medium with that delay. Z diff "
               "matched: from the whole characteristic matrix, every other "
               "signal conductor ending in its match. Coupling: (Z even - Z odd) / (Z even + Z "
               "odd).",
               "    ");
}

std::string singles_text(const Section& section, const PerMetre& line) {
    const std::vector<std::size_t> singles = singles_of(section);
    if (singles.empty()) return {};
    const std::vector<std::size_t> signals = signals_of(section);
    Rows rows{{"conductor", "Z", "delay", "er eff"}};
    const std::size_t shown = std::min(singles.size(), static_cast<std::size_t>(most_shown));
    for (const std::size_t conductor : std::span(singles).first(shown)) {
        const SingleImpedance found = single_impedance(line, place_of(signals, conductor));
        rows.push_back({section.conductors[conductor].name, fmt::format("{:.2f} ohm", found.z),
                        fmt::format("{:.0f} ps/m", found.delay * 1e12),
                        fmt::format("{:.3f}", effective_permittivity(found.delay))});
    }
    return "\nSingle conductors, every other signal conductor held at ground\n" +
           in_columns(rows, "    ") +
           rest_text(static_cast<Eigen::Index>(shown), static_cast<Eigen::Index>(singles.size()));
}

/// Up to where the section's slowest mode is a static field.
std::string validity_text(const Section& section, const PerMetre& line) {
    return in_lines(
        fmt::format("Quasi-static: good while the field spans much less than a wave. It spans "
                    "{:.3g} mm here, {}: good to about {:.3g} GHz; above that radiation and higher "
                    "modes are missing.",
                    field_span(section).value(),
                    section.planes.empty() ? "all conductors from edge to edge"
                                           : "a conductor and its height above the shield on "
                                             "either side",
                    quasi_static_limit(section, line).value() * 1e-9),
        "");
}

}  // namespace

std::string section_text(const Section& section, const FieldSolution& solution) {
    const PerMetre line = per_metre(solution, section.ground);
    std::string text =
        fmt::format("{}, {} of them ground, {}\n", counted(section.conductors.size(), "conductor"),
                    section.ground.size(), counted(section.planes.size(), "plane"));
    text += matrix_text(section, "Capacitance, pF/m", line.capacitance, 1e-12);
    text += matrix_text(section, "Capacitance without the dielectrics, pF/m",
                        line.capacitance_vacuum, 1e-12);
    text += matrix_text(section, "Inductance, nH/m", line.inductance, 1e-9);
    if (section.frequency) {
        const std::string at = fmt::format("at {:g} GHz", section.frequency->value() / 1e9);
        text += matrix_text(section, "Resistance of copper at 20 degC " + at + ", ohm/m",
                            line.resistance(*section.frequency), 1.0);
        text += matrix_text(section, "Conductance " + at + ", mS/m",
                            line.conductance(*section.frequency), 1e-3);
    }
    text += pairs_text(section, line);
    text += singles_text(section, line);
    text += fmt::format("\nEstimated error {:.2g} %, with {} unknowns{}.\n",
                        100.0 * solution.error_estimate, solution.unknowns,
                        section.frequency ? fmt::format("; of the skin's resistance {:g} %",
                                                        100.0 * recession_error)
                                          : "");
    return shown_page(text + validity_text(section, line));
}

}  // namespace pinfold
