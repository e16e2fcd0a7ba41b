#include "document/line_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "physics/field.hpp"

namespace pinfold {
namespace {

/// To one digit, and never a nothing with a sign.
std::string tenths(double value) {
    return fmt::format("{:.1f}", std::abs(value) < 0.05 ? 0.0 : value);
}

/// What the interface wants beside the impedance.
std::string limits_of(const LineGroup& group) {
    if (!group.limit) return "-";
    std::vector<std::string> wants;
    const Limit& limit = *group.limit;
    if (limit.loss) wants.push_back(fmt::format("loss {:g} dB", limit.loss->value()));
    if (limit.crosstalk_below) {
        wants.push_back(fmt::format("crosstalk {:g} dB", -limit.crosstalk_below->value()));
    }
    if (limit.least_eye) wants.push_back(fmt::format("eye {:g} V", limit.least_eye->value()));
    if (limit.least_eye_width) {
        wants.push_back(fmt::format("eye {:g} UI", limit.least_eye_width->value()));
    }
    return wants.empty() ? "-" : fmt::format("{}", fmt::join(wants, ", "));
}

std::vector<std::string> row_of(const LineGroup& group, const PairLine& pair) {
    std::vector<std::string> row{pair.name, fmt::format("{:.1f}", pair.worst.z_diff),
                                 fmt::format("{:.1f}", pair.worst.z_common),
                                 fmt::format("{:.0f}", pair.delay.value()),
                                 tenths(pair.skew.value())};
    if (!pair.result) {
        row.insert(row.end(), {"-", "-", "-", "-", "-"});
    } else {
        const PairResult& result = *pair.result;
        row.push_back(fmt::format("{:.2f}", result.loss.value()));
        row.push_back(pair.aggressor.empty()
                          ? "-"
                          : fmt::format("{:.1f} from {}", pair.crosstalk.value(), pair.aggressor));
        row.push_back(
            pair.aggressor.empty() ? "-" : fmt::format("{:.1f}", result.crosstalk_power.value()));
        row.push_back(pair.listened ? fmt::format("{:.2f}", group.eye_of(pair).value()) : "-");
        row.push_back(pair.listened ? fmt::format("{:.2f}", result.eye.width.value()) : "-");
    }
    const auto window = window_of(group.limit);
    row.push_back(
        window ? fmt::format("{:.0f}-{:.0f} ohm", window->least.value(), window->most.value())
               : "-");
    row.push_back(verdict_of(group, pair));
    return row;
}

std::string wanted(const Carry& promise, const LineGroup& group) {
    const bool known = group.limit && group.limit->least_swing;
    std::string text = fmt::format("  {} wants too: {}\n", promise.interface, limits_of(group));
    text += known
                ? fmt::format("  sent: {:g} V, the least swing it allows\n", group.swing().value())
                : "  sent: 1 V, for want of a swing in the interface's limits\n";
    return text;
}

std::vector<std::string> row_of(const std::string& text, const LineFigures& figures) {
    return {text, fmt::format("{}", figures.faults), fmt::format("{:.1f}", figures.z_diff),
            fmt::format("{:.1f}", figures.crosstalk.value()),
            fmt::format("{:.2f}", figures.eye.value())};
}

std::string changes_text(const LineGroup& group, const std::vector<LineChange>& changes) {
    if (changes.empty()) return "";
    Rows rows{{"what would help", "faults", "Z diff [ohm]", "all [dB]", "eye [V]"},
              row_of("as it is", figures_of(group))};
    for (const LineChange& change : changes) rows.push_back(row_of(change.text, change.figures));
    return "\n" + in_columns(rows, "  ") +
           "  each change made to a copy and measured again, the worst pair told; check the copy "
           "before it is built\n";
}

/// `traces of base: D2 101.2, D1 101.2 ohm`, a line for each board with a stack-up.
std::string traces_text(const LineGroup& group) {
    std::map<std::string, std::vector<std::string>> boards;
    for (const TracesOnBoard& traces : group.traces) {
        boards[traces.board].push_back(
            fmt::format("{} {:.1f}", traces.pair, traces.impedance.z_diff));
    }
    std::string text;
    for (const auto& [board, pairs] : boards) {
        text += fmt::format("  traces of {}: Z diff {} ohm\n", board, fmt::join(pairs, ", "));
    }
    return text;
}

std::string group_text(const Design& design, const LineGroup& group) {
    const Carry& promise = design.carries[group.carry];
    std::string text = fmt::format("{} over {}", promise.name, fmt::join(group.ribbons, ", "));
    if (promise.rate) text += fmt::format(" at {:g} Gbit/s", promise.rate->value());
    Rows rows{{"pair", "Z diff [ohm]", "Z com [ohm]", "delay [ps]", "skew [ps]", "loss [dB]",
               "crosstalk [dB]", "all [dB]", "eye [V]", "eye [UI]", "limits", "verdict"}};
    for (const PairLine& pair : group.pairs) rows.push_back(row_of(group, pair));
    text += "\n\n" + in_columns(rows, "  ") + "\n";
    text += traces_text(group);
    if (promise.rate) text += wanted(promise, group);
    if (group.ground_resonance.value() > 0.0) {
        text += fmt::format("  the grounds resonate first at {:.2f} GHz\n",
                            group.ground_resonance.value() * 1e-9);
    }
    if (group.valid_to.value() > 0.0) {
        text += fmt::format(
            "  the model holds to about {:.3g} GHz, then radiation and higher modes are missed\n",
            group.valid_to.value() * 1e-9);
    }
    text += fmt::format("  field solved to {:.1g} %, the skin's resistance to {:g} %\n",
                        100.0 * group.error_estimate, 100.0 * recession_error);
    if (!group.heard.empty()) {
        text += fmt::format("  heard too, of other promises: {}\n", fmt::join(group.heard, ", "));
    }
    if (!group.uncounted.empty()) {
        text += fmt::format(
            "  further fast conductors run in {}; what they bring is not counted, for their pairs "
            "do not arrive whole the same way\n",
            fmt::join(group.uncounted, ", "));
    }
    return text;
}

/// A table for each promise and ribbon; nothing without singles.
std::string singles_text(const Design& design, const std::vector<SingleLine>& singles) {
    std::string text;
    for (auto first = singles.begin(); first != singles.end();) {
        const auto elsewhere = [&](const SingleLine& single) {
            return single.carry != first->carry || single.ribbon != first->ribbon;
        };
        const auto last = std::find_if(first, singles.end(), elsewhere);
        text += fmt::format("single signals of {} on {}, every other signal held at ground\n\n",
                            design.carries[first->carry].name, design.ribbons[first->ribbon].name);
        Rows rows{{"signal", "Z [ohm]", "delay [ps]"}};
        for (; first != last; ++first) {
            rows.push_back({first->signal, fmt::format("{:.1f}", first->impedance.z),
                            fmt::format("{:.0f}", first->delay.value())});
        }
        text += in_columns(rows, "  ") + "\n";
    }
    return text;
}

}  // namespace

std::string verdict_of(const LineGroup& group, const PairLine& pair) {
    if (group.untried) return "not tried";
    if (!pair.result) return "no rate";
    std::vector<std::string_view> faults;
    for (const LineFault fault : faults_of(group, pair)) faults.push_back(name_of(fault));
    return faults.empty() ? "ok" : fmt::format("{}", fmt::join(faults, ", "));
}

std::string line_text(const Design& design, const std::vector<LineGroup>& groups,
                      const std::vector<SingleLine>& singles,
                      const std::vector<std::vector<LineChange>>& changes) {
    if (groups.empty()) {
        return shown_page("no fast pair arrives over a ribbon with a ground in it\n\n" +
                          singles_text(design, singles));
    }
    std::string text;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        text += group_text(design, groups[g]);
        if (!changes.empty()) text += changes_text(groups[g], changes[g]);
        text += "\n";
    }
    text += singles_text(design, singles);
    return shown_page(
        text +
        in_lines(fmt::format(
            "Z diff and Z com: every other signal conductor held at ground; of several ribbons "
            "the one furthest off. Loss at half the rate. Crosstalk: the loudest other pair, and "
            "all of them, powers summed; the worst up to {:g} of the rate, at the end where this "
            "pair is heard. Pairs of other promises on the same ribbons are heard too, at their "
            "own rates if they state any, and single signals of a promise without pairs that "
            "states its rate. Eye, at the receiver, from peak to peak: what the worst "
            "pattern of the pair and of all others leaves of the swing that is sent (peak "
            "distortion; edges of 0.3 bit; frequencies to 2.5 times the rate, faded out over the "
            "upper 60 %); a clock has none here. Assumed: grounds stay conductors, joined by the "
            "boards through the contacts, 1 nH each where no pin map says more; supplies end in "
            "their decoupling, single signals in 50 ohm; traces of boards without a stack-up are "
            "matched and lose nothing, and those without a length have none.",
            band_of_rate)));
}

}  // namespace pinfold
