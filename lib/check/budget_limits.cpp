#include <fmt/format.h>

#include <algorithm>

#include "check/budget.hpp"

namespace pinfold {
namespace {

/// Judges the peak at both ends of the batteries' windows; each fault is told once.
class LimitCheck {
public:
    explicit LimitCheck(const Design& design) : budget_(design.budget) {}

    Findings check(const FeedNetworks& networks, const Design& design) {
        std::vector<BudgetCase> cases;
        for (const BatteryEnd end : {BatteryEnd::empty, BatteryEnd::full}) {
            cases.push_back(solve_budget(design, networks, LoadLevel::peak, end));
        }
        for (const BudgetCase& at : cases) {
            if (at.exhausted) tell_exhausted(at);
        }
        if (cases.front().settles && cases.back().settles) judge(cases.front(), cases.back());
        return std::move(findings_);
    }

private:
    void tell(const char* rule, const std::string& name, std::string text, const Mark& at) {
        findings_.push_back({Severity::error, rule, std::move(text), at, {}, {"budget", name}, {}});
    }

    void tell_exhausted(const BudgetCase& at) {
        const Battery& battery = budget_.batteries[*at.exhausted];
        tell("battery-overloaded", battery.name,
             fmt::format("{}, {}, cannot give what is asked of it at peak through its {:.3g} ohm",
                         battery.name, name_of(at.end), battery.resistance.value()),
             battery.at);
    }

    void judge(const BudgetCase& empty, const BudgetCase& full) {
        for (std::size_t i = 0; i < budget_.batteries.size(); ++i) {
            const Battery& battery = budget_.batteries[i];
            const double most =
                std::max(empty.batteries[i].current.value(), full.batteries[i].current.value());
            if (!battery.current || most <= battery.current->value()) continue;
            tell("battery-overloaded", battery.name,
                 fmt::format("{} gives {:.2f} A at peak, its limit is {:.2f} A", battery.name, most,
                             battery.current->value()),
                 battery.at);
        }
        for (std::size_t i = 0; i < budget_.stages.size(); ++i) {
            judge(budget_.stages[i], empty.stages[i], full.stages[i]);
        }
    }

    void judge(const Stage& stage, const StageState& empty, const StageState& full) {
        limit(stage, "input", "A", stage.input_current, empty.input_current, full.input_current);
        limit(stage, "output", "A", stage.output_current, empty.output_current,
              full.output_current);
        limit(stage, "input", "W", stage.input_power, empty.input_power, full.input_power);
        limit(stage, "output", "W", stage.output_power, empty.output_power, full.output_power);
        const Volts low = std::min(empty.input, full.input);
        const Volts high = std::max(empty.input, full.input);
        const bool too_high = stage.kind == StageKind::boost && high > stage.output;
        const bool too_low = stage.kind == StageKind::buck && low < stage.output;
        if (!too_high && !too_low) return;
        tell("stage-window", stage.name,
             fmt::format("{} stage {} has {:.3f} V at its input, {} its output of {:.3f} V",
                         name_of(stage.kind), stage.name, (too_high ? high : low).value(),
                         too_high ? "above" : "below", stage.output.value()),
             stage.at);
    }

    template <class Q>
    void limit(const Stage& stage, const char* side, const char* unit, const std::optional<Q>& most,
               Q empty, Q full) {
        const Q worst = std::max(empty, full);
        if (!most || worst <= *most) return;
        tell("stage-overloaded", stage.name,
             fmt::format("{} has {:.2f} {} at its {} at peak with a battery {}, its limit is "
                         "{:.2f} {}",
                         stage.name, worst.value(), unit, side, empty > full ? "empty" : "full",
                         most->value(), unit),
             stage.at);
    }

    const Budget& budget_;
    Findings findings_;
};

}  // namespace

Findings check_budget(const Design& design, const Wiring& wiring) {
    if (design.budget.is_empty()) return {};
    return LimitCheck(design).check(FeedNetworks(design, wiring), design);
}

}  // namespace pinfold
