#include "check/judge_line.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <span>

namespace pinfold {
namespace {

/// `D2, D1`, and the least and the most of a number they have: `118 to 121`.
struct Told {
    std::vector<std::string> pairs;
    double least = 0.0, most = 0.0;

    void add(const std::string& pair, double value) {
        least = pairs.empty() ? value : std::min(least, value);
        most = pairs.empty() ? value : std::max(most, value);
        pairs.push_back(pair);
    }
    std::string subject() const {
        return fmt::format("pair{} {}", pairs.size() == 1 ? "" : "s", fmt::join(pairs, ", "));
    }
    const char* verb(const char* one, const char* many) const {
        return pairs.size() == 1 ? one : many;
    }
    std::string range(int digits) const {
        const std::string low = fmt::format("{:.{}f}", least, digits);
        const std::string high = fmt::format("{:.{}f}", most, digits);
        return low == high ? low : low + " to " + high;
    }
};

/// Turns the faults of one promise's pairs into findings.
class Judge {
public:
    Judge(const Design& design, const LineGroup& group, Findings& findings)
        : promise_(design.carries[group.carry]), group_(group), findings_(findings) {}

    void judge() {
        if (!promise_.rate) return;
        if (group_.untried) {
            add(Severity::note, "line-untried",
                fmt::format("the lines of '{}' were not judged, there are too many conductors; run "
                            "'pinfold line'",
                            promise_.name),
                {promise_.name});
            return;
        }
        judge_eyes();
        judge_impedance(LineFault::impedance_low);
        judge_impedance(LineFault::impedance_high);
        judge_traces();
        judge_crosstalk();
        judge_loss();
        judge_resonance();
        judge_model();
    }

private:
    void add(Severity severity, const char* rule, std::string text,
             std::vector<std::string> places) {
        findings_.push_back(
            {severity, rule, std::move(text), promise_.at, {}, std::move(places), {}});
    }

    /// The finding's places: the ribbons, the pairs, the promise.
    void add(Severity severity, const char* rule, std::string text, const Told& told) {
        std::vector<std::string> places = group_.ribbons;
        places.insert(places.end(), told.pairs.begin(), told.pairs.end());
        places.push_back(promise_.name);
        add(severity, rule, std::move(text), std::move(places));
    }

    template <class Value>
    Told told_of(LineFault fault, const Value& value) const {
        Told told;
        for (const PairLine& pair : group_.pairs) {
            const std::vector<LineFault> faults = faults_of(group_, pair);
            if (std::ranges::find(faults, fault) != faults.end()) told.add(pair.name, value(pair));
        }
        return told;
    }

    void judge_eyes() {
        const double rate = promise_.rate->value();
        const Told closed = told_of(LineFault::eye_closed,
                                    [](const PairLine& pair) { return pair.result->eye.opening; });
        if (!closed.pairs.empty()) {
            add(Severity::error, "eye-closed",
                fmt::format("at {:g} Gbit/s the worst pattern of bits closes the eye of {}", rate,
                            closed.subject()),
                closed);
        }
        const Told low = told_of(LineFault::eye_low, [&](const PairLine& pair) {
            return 1e3 * group_.eye_of(pair).value();
        });
        if (!low.pairs.empty()) {
            add(Severity::warning, "eye-low",
                fmt::format("at {:g} Gbit/s {} of the {:.0f} mV sent are left to {} by the worst "
                            "pattern, the receiver wants {:.0f} mV ({})",
                            rate, low.range(0) + " mV", 1e3 * group_.swing().value(), low.subject(),
                            1e3 * group_.limit->least_eye->value(), group_.limit->source),
                low);
        }
        const Told narrow = told_of(LineFault::eye_narrow, [](const PairLine& pair) {
            return pair.result->eye.width.value();
        });
        if (!narrow.pairs.empty()) {
            add(Severity::warning, "eye-low",
                fmt::format("at {:g} Gbit/s the eye of {} stays open for {} of a bit, the receiver "
                            "wants {:g} ({})",
                            rate, narrow.subject(), narrow.range(2),
                            group_.limit->least_eye_width->value(), group_.limit->source),
                narrow);
        }
    }

    void judge_impedance(LineFault fault) {
        const Told off = told_of(fault, [](const PairLine& pair) { return pair.worst.z_diff; });
        if (off.pairs.empty()) return;
        const ImpedanceWindow window = *window_of(group_.limit);
        add(Severity::warning, "impedance-off",
            fmt::format("{} {} {} ohm on {}, every other signal held at ground; {} wants {:.0f} to "
                        "{:.0f} ohm ({})",
                        off.subject(), off.verb("has", "have"), off.range(0),
                        fmt::join(group_.ribbons, ", "), promise_.interface, window.least.value(),
                        window.most.value(), group_.limit->source),
            off);
    }

    void judge_traces() {
        const std::optional<ImpedanceWindow> window = window_of(group_.limit);
        if (!window) return;
        std::map<std::string, Told> off;  // by board
        for (const TracesOnBoard& traces : group_.traces) {
            const Ohms z(traces.impedance.z_diff);
            if (z < window->least || z > window->most)
                off[traces.board].add(traces.pair, z.value());
        }
        for (const auto& [board, told] : off) {
            std::vector<std::string> places{board};
            places.insert(places.end(), told.pairs.begin(), told.pairs.end());
            places.push_back(promise_.name);
            add(Severity::warning, "trace-impedance",
                fmt::format("{} {} {} ohm on the traces of {}; {} wants {:.0f} to {:.0f} ohm ({})",
                            told.subject(), told.verb("has", "have"), told.range(0), board,
                            promise_.interface, window->least.value(), window->most.value(),
                            group_.limit->source),
                std::move(places));
        }
    }

    void judge_crosstalk() {
        const Told loud = told_of(LineFault::crosstalk_high, [](const PairLine& pair) {
            return pair.result->crosstalk_power.value();
        });
        if (loud.pairs.empty()) return;
        add(Severity::warning, "crosstalk-high",
            fmt::format("{} {} the others at {} dB at worst in band, {} wants {:g} dB at most ({})",
                        loud.subject(), loud.verb("hears", "hear"), loud.range(1),
                        promise_.interface, -group_.limit->crosstalk_below->value(),
                        group_.limit->source),
            loud);
    }

    void judge_loss() {
        const Told lost = told_of(LineFault::loss_high,
                                  [](const PairLine& pair) { return pair.result->loss.value(); });
        if (lost.pairs.empty()) return;
        add(Severity::warning, "loss-high",
            fmt::format("{} {} {} dB at half the rate, {} allows {:g} dB ({})", lost.subject(),
                        lost.verb("loses", "lose"), lost.range(1), promise_.interface,
                        group_.limit->loss->value(), group_.limit->source),
            lost);
    }

    double band() const { return band_of_rate * promise_.rate->value() * 1e9; }

    void judge_resonance() {
        const double resonance = group_.ground_resonance.value();
        if (resonance <= 0.0 || resonance >= band()) return;
        add(Severity::note, "ground-resonance",
            fmt::format("the grounds of {} resonate at {:.2f} GHz, within the band of {:g} Gbit/s, "
                        "which ends at {:.2f} GHz: the pairs couple more there",
                        fmt::join(group_.ribbons, ", "), resonance * 1e-9, promise_.rate->value(),
                        band() * 1e-9),
            group_.ribbons);
    }

    void judge_model() {
        const double limit = group_.valid_to.value();
        if (limit <= 0.0 || limit >= band()) return;
        add(Severity::note, "model-limit",
            fmt::format("above {:.1f} GHz {} is too wide for the model, which leaves out "
                        "radiation and higher modes; the band ends at {:.2f} GHz",
                        limit * 1e-9, fmt::join(group_.ribbons, ", "), band() * 1e-9),
            group_.ribbons);
    }

    const Carry& promise_;
    const LineGroup& group_;
    Findings& findings_;
};

/// All pairs and grounds of a promise arrive.
bool is_whole(std::span<const Pass> passes) {
    return std::ranges::all_of(passes, [](const Pass& pass) {
        const bool of_line = pass.role == Role::pair_half || pass.role == Role::ground ||
                             pass.role == Role::pair_shield;
        return !of_line || pass.state == State::good;
    });
}

}  // namespace

Findings judge_lines(const Design& design, const std::vector<LineGroup>& groups) {
    Findings findings;
    for (const LineGroup& group : groups) Judge(design, group, findings).judge();
    return findings;
}

Findings check_lines(const Design& design, const Wiring& wiring, LineMemory& memory) {
    std::vector<std::size_t> judged;
    for (std::size_t c = 0; c < design.carries.size(); ++c) {
        if (design.carries[c].rate && is_whole(wiring.passes_of(c))) judged.push_back(c);
    }
    return judge_lines(design, measure_lines(design, wiring, memory, judged));
}

}  // namespace pinfold
