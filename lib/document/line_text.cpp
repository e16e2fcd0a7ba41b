#include "document/line_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "document/columns.hpp"

namespace pinfold {
namespace {

std::string limits_of(const PairLine& pair) {
    if (!pair.least_impedance) return "-";
    return fmt::format("{:.0f}-{:.0f} ohm", pair.least_impedance->value(),
                       pair.most_impedance->value());
}

std::vector<std::string> row_of(const PairLine& pair) {
    std::vector<std::string> row{pair.name, fmt::format("{:.1f}", pair.worst.z_diff),
                                 fmt::format("{:.1f}", pair.worst.z_common),
                                 fmt::format("{:.0f}", pair.delay.value()),
                                 fmt::format("{:.1f}", pair.skew.value())};
    if (!pair.result) {
        row.insert(row.end(), {"-", "-", "-", "-"});
    } else {
        const PairResult& result = *pair.result;
        row.push_back(fmt::format("{:.2f}", result.loss.value()));
        row.push_back(pair.aggressor.empty()
                          ? "-"
                          : fmt::format("{:.1f} from {}", pair.crosstalk.value(), pair.aggressor));
        row.push_back(pair.listened ? fmt::format("{:.2f}", result.eye.opening) : "-");
        row.push_back(pair.listened ? fmt::format("{:.2f}", result.eye.width.value()) : "-");
    }
    row.push_back(limits_of(pair));
    row.push_back(verdict_of(pair));
    return row;
}

std::string group_text(const Design& design, const LineGroup& group) {
    const Carry& promise = design.carries[group.carry];
    std::string text = fmt::format("{} over {}", promise.name, fmt::join(group.ribbons, ", "));
    if (promise.rate) text += fmt::format(" at {:g} Gbit/s", promise.rate->value());
    Rows rows{{"pair", "Z diff [ohm]", "Z com [ohm]", "delay [ps]", "skew [ps]", "loss [dB]",
               "crosstalk [dB]", "eye [V]", "eye [UI]", "limits", "verdict"}};
    for (const PairLine& pair : group.pairs) rows.push_back(row_of(pair));
    text += "\n\n" + in_columns(rows, "  ") + "\n";
    if (group.ground_resonance.value() > 0.0) {
        text += fmt::format("  the grounds resonate first at {:.2f} GHz\n",
                            group.ground_resonance.value() * 1e-9);
    }
    text += fmt::format(
        "  the model holds to about {:.1f} GHz, then radiation is missed; field "
        "solved to {:.1g} %\n",
        group.valid_to.value() * 1e-9, 100.0 * group.error_estimate);
    if (!group.uncounted.empty()) {
        text += fmt::format(
            "  pairs of other promises run in {} too; their crosstalk is not "
            "counted\n",
            fmt::join(group.uncounted, ", "));
    }
    return text + "\n";
}

}  // namespace

std::string verdict_of(const PairLine& pair) {
    if (!pair.result) return "no rate";
    if (pair.listened && pair.result->eye.opening <= 0.0) return "eye closed";
    const double z = pair.worst.z_diff;
    if (pair.least_impedance && z < pair.least_impedance->value()) return "impedance low";
    if (pair.most_impedance && z > pair.most_impedance->value()) return "impedance high";
    return "ok";
}

std::string line_text(const Design& design, const std::vector<LineGroup>& groups) {
    if (groups.empty()) return "no fast pair arrives over a ribbon with a ground in it\n";
    std::string text;
    for (const LineGroup& group : groups) text += group_text(design, group);
    return text +
           in_lines(fmt::format(
               "Z diff and Z com: every other signal conductor held at ground; of several ribbons "
               "the one furthest off. Loss at half the rate. Crosstalk: the loudest other pair, "
               "the "
               "worst up to {:g} of the rate, at the end where this pair is heard. Eye: what the "
               "worst pattern of the pair and of all others leaves of 1 V sent from peak to peak "
               "(peak distortion; edges of 0.3 bit; frequencies to 2.5 times the rate, faded out "
               "over the upper 60 %); a clock has none here. Assumed: grounds stay conductors, "
               "joined by the boards through the contacts, 1 nH each; supplies end in their "
               "decoupling, single signals in 50 ohm; traces are matched and lose nothing.",
               band_of_rate));
}

}  // namespace pinfold
