#include "check/budget.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace pinfold {
namespace {

class BudgetSolver {
public:
    BudgetSolver(const Design& design, const FeedNetworks& networks, LoadLevel level,
                 BatteryEnd end)
        : budget_(design.budget), networks_(networks), origins_(design.budget.origins()) {
        result_.level = level;
        result_.end = end;
        for (const Battery& battery : budget_.batteries) {
            const Volts cells = cells_of(battery, end);
            result_.batteries.push_back({cells, cells, {}, {}});
        }
        result_.stages.resize(budget_.stages.size());
        for (const BudgetLoad& load : budget_.loads)
            result_.loads.push_back({power_of(load), {}, {}});
        for (const FeedLoad& load : networks.loads()) {
            if (!load.in_budget) continue;
            solved_.insert({load.carry, 0.0});
            result_.feed.voltage[load.carry] = voltage_of(origins_.at(load.carry));
        }
    }

    /// Each round carries demands from the loads to the batteries and voltages back; the powers
    /// only grow from round to round, so they settle or run away.
    BudgetCase solve() {
        constexpr int most_rounds = 200;
        for (int round = 0; round < most_rounds; ++round) {
            const double before = total();
            add_up();
            if (!supply_batteries() || !solve_ways()) {
                result_.settles = false;
                return std::move(result_);
            }
            if (round > 1 && std::abs(total() - before) <= 1e-10 * total()) break;
        }
        read_voltages();
        return std::move(result_);
    }

private:
    static Volts cells_of(const Battery& battery, BatteryEnd end) {
        if (end == BatteryEnd::full) return battery.full;
        if (end == BatteryEnd::empty) return battery.empty;
        return 0.5 * (battery.full + battery.empty);
    }

    Watts power_of(const BudgetLoad& load) const {
        if (result_.level == LoadLevel::idle) return load.idle;
        return result_.level == LoadLevel::peak ? load.peak : load.typical;
    }

    double total() const {
        double watts = 0.0;
        for (const BatteryState& battery : result_.batteries) watts += battery.from_cells.value();
        return watts;
    }

    /// Powers from the loads back to the batteries, with the losses on the ways of the last round.
    void add_up() {
        asked_of_battery_.assign(budget_.batteries.size(), 0.0);
        std::vector<double> asked_of_stage(budget_.stages.size(), 0.0);
        result_.feed.power.clear();
        const auto ask = [&](const PowerOrigin& from, double watts) {
            auto& of = from.kind == PowerOrigin::Kind::battery ? asked_of_battery_ : asked_of_stage;
            of[from.place] += watts;
        };
        const auto draw = [&](const PowerOrigin& from, double watts) {
            ask(from, watts);
            if (!from.carry || !solved_.contains(*from.carry)) return;
            Watts& far = result_.feed.power[*from.carry];
            far = far + Watts(watts);
        };
        for (const auto& [carry, loss] : solved_) ask(origins_.at(carry), loss);
        for (std::size_t i = 0; i < budget_.loads.size(); ++i) {
            draw(budget_.loads[i].from, result_.loads[i].power.value());
        }
        for (std::size_t i = budget_.stages.size(); i-- > 0;) {
            StageState& state = result_.stages[i];
            const double share = budget_.stages[i].efficiency.value() / 100.0;
            state.output_power = Watts(asked_of_stage[i]);
            state.input_power = Watts(asked_of_stage[i] / share);
            draw(budget_.stages[i].from, state.input_power.value());
        }
    }

    /// The higher of the two terminal voltages at which the power can be drawn over the resistance.
    bool supply_batteries() {
        for (std::size_t i = 0; i < budget_.batteries.size(); ++i) {
            BatteryState& state = result_.batteries[i];
            const double cells = state.cells.value();
            const double room = cells * cells - 4.0 * asked_of_battery_[i] *
                                                    budget_.batteries[i].resistance.value();
            if (room < 0.0) {
                result_.exhausted = i;
                return false;
            }
            state.terminals = Volts((cells + std::sqrt(room)) / 2.0);
            state.current = Amperes(asked_of_battery_[i] / state.terminals.value());
            state.from_cells = Watts(cells * state.current.value());
        }
        return true;
    }

    Volts voltage_of(const PowerOrigin& from) const {
        return from.kind == PowerOrigin::Kind::battery ? result_.batteries[from.place].terminals
                                                       : budget_.stages[from.place].output;
    }

    /// Solves the promises' networks and keeps the loss on each way.
    bool solve_ways() {
        if (solved_.empty()) return true;
        for (const auto& [carry, loss] : solved_) {
            result_.feed.voltage[carry] = voltage_of(origins_.at(carry));
        }
        feeds_ = networks_.solve(result_.feed).feeds;
        result_.way_loss = Watts{};
        for (const Feed& feed : feeds_) {
            const auto solved = solved_.find(feed.carry);
            if (solved == solved_.end()) continue;
            if (!feed.settles) return false;
            solved->second = (feed.drop_out + feed.drop_back).value() * feed.current.value();
            result_.way_loss = result_.way_loss + Watts(solved->second);
        }
        return true;
    }

    void read_voltages() {
        std::map<std::size_t, Volts> arriving;
        for (const Feed& feed : feeds_) {
            if (feed.arriving) arriving.emplace(feed.carry, *feed.arriving);
        }
        const auto arrives = [&](const PowerOrigin& from) {
            const auto way = from.carry ? arriving.find(*from.carry) : arriving.end();
            return way == arriving.end() ? voltage_of(from) : way->second;
        };
        for (std::size_t i = 0; i < budget_.loads.size(); ++i) {
            LoadState& load = result_.loads[i];
            load.voltage = arrives(budget_.loads[i].from);
            load.current = Amperes(load.power.value() / load.voltage.value());
        }
        for (std::size_t i = 0; i < budget_.stages.size(); ++i) {
            const Stage& stage = budget_.stages[i];
            StageState& state = result_.stages[i];
            state.input = arrives(stage.from);
            state.input_current = Amperes(state.input_power.value() / state.input.value());
            state.output_current = Amperes(state.output_power.value() / stage.output.value());
        }
    }

    const Budget& budget_;
    const FeedNetworks& networks_;
    const std::map<std::size_t, PowerOrigin> origins_;
    std::map<std::size_t, double> solved_;  ///< watts lost on the way, by promise
    std::vector<double> asked_of_battery_;  ///< watts
    std::vector<Feed> feeds_;
    BudgetCase result_;
};

/// Energy that may be taken over the power that is: E u / P.
Hours lasting(const Battery& battery, const BatteryState& state) {
    return Hours(battery.energy.value() * battery.usable.value() / 100.0 /
                 state.from_cells.value());
}

}  // namespace

std::string_view name_of(LoadLevel level) {
    if (level == LoadLevel::idle) return "idle";
    return level == LoadLevel::peak ? "peak" : "typical";
}

std::string_view name_of(BatteryEnd end) {
    if (end == BatteryEnd::full) return "full";
    return end == BatteryEnd::empty ? "empty" : "middle";
}

BudgetCase solve_budget(const Design& design, const FeedNetworks& networks, LoadLevel level,
                        BatteryEnd end) {
    return BudgetSolver(design, networks, level, end).solve();
}

BudgetResult solve_budget(const Design& design, const FeedNetworks& networks) {
    BudgetResult result;
    if (design.budget.is_empty()) return result;
    for (const LoadLevel level : load_levels) {
        for (const BatteryEnd end : {BatteryEnd::full, BatteryEnd::empty}) {
            result.cases.push_back(solve_budget(design, networks, level, end));
        }
        const BudgetCase middle = solve_budget(design, networks, level, BatteryEnd::middle);
        for (std::size_t i = 0; middle.settles && i < middle.batteries.size(); ++i) {
            if (middle.batteries[i].from_cells.value() <= 0.0) continue;
            result.runtimes.push_back(
                {level, i, lasting(design.budget.batteries[i], middle.batteries[i])});
        }
    }
    return result;
}

FeedCase worst_case(const Design& design, const FeedNetworks& networks) {
    if (design.budget.is_empty()) return {};
    return solve_budget(design, networks, LoadLevel::peak, BatteryEnd::empty).feed;
}

}  // namespace pinfold
