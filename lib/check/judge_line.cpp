#include "check/judge_line.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace pinfold {

Findings judge_lines(const Design& design, const std::vector<LineGroup>& groups) {
    Findings findings;
    const auto add = [&](Severity severity, const char* rule, std::string text,
                         const LineGroup& group, std::vector<std::string> places) {
        findings.push_back({severity,
                            rule,
                            std::move(text),
                            design.carries[group.carry].at,
                            {},
                            std::move(places),
                            {}});
    };
    for (const LineGroup& group : groups) {
        const Carry& promise = design.carries[group.carry];
        if (!promise.rate) continue;
        for (const PairLine& pair : group.pairs) {
            const double z = pair.worst.z_diff;
            if (pair.least_impedance &&
                (z < pair.least_impedance->value() || z > pair.most_impedance->value())) {
                add(Severity::warning, "impedance-off",
                    fmt::format("pair {} has {:.0f} ohm on {}, {} wants {:.0f} to {:.0f} ohm ({})",
                                pair.name, z, pair.ribbon, promise.interface,
                                pair.least_impedance->value(), pair.most_impedance->value(),
                                pair.source),
                    group, {pair.name, pair.ribbon});
            }
            if (pair.result && pair.listened && pair.result->eye.opening <= 0.0) {
                add(Severity::error, "eye-closed",
                    fmt::format("the eye of pair {} can close at {:g} Gbit/s: a bit brings {:.2f} "
                                "of what is sent, other bits can take {:.2f}, other pairs {:.2f}",
                                pair.name, promise.rate->value(), pair.result->eye.cursor,
                                pair.result->eye.other_bits, pair.result->eye.neighbours),
                    group, {pair.name, promise.name});
            }
        }
        const double band = band_of_rate * promise.rate->value() * 1e9;
        const double resonance = group.ground_resonance.value();
        if (resonance > 0.0 && resonance < band) {
            add(Severity::note, "ground-resonance",
                fmt::format("the grounds of {} resonate at {:.2f} GHz, within the band of {:g} "
                            "Gbit/s, which ends at {:.2f} GHz: the pairs couple more there",
                            fmt::join(group.ribbons, ", "), resonance * 1e-9, promise.rate->value(),
                            band * 1e-9),
                group, group.ribbons);
        }
        if (group.valid_to.value() > 0.0 && group.valid_to.value() < band) {
            add(Severity::note, "model-limit",
                fmt::format("above {:.1f} GHz {} is too wide for the model, which leaves out "
                            "radiation; the band ends at {:.2f} GHz",
                            group.valid_to.value() * 1e-9, fmt::join(group.ribbons, ", "),
                            band * 1e-9),
                group, group.ribbons);
        }
    }
    return findings;
}

}  // namespace pinfold
