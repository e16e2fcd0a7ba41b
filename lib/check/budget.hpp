// The power budget worked out: currents at each stage, at each load and both ends of the battery.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "check/feed.hpp"

namespace pinfold {

enum class LoadLevel { idle, typical, peak };
enum class BatteryEnd { full, middle, empty };

inline constexpr std::array load_levels{LoadLevel::idle, LoadLevel::typical, LoadLevel::peak};

std::string_view name_of(LoadLevel level);
std::string_view name_of(BatteryEnd end);

/// What a battery gives. Cells: before its resistance.
struct BatteryState {
    Volts cells, terminals;
    Amperes current;
    Watts from_cells;
};

struct StageState {
    Volts input;
    Amperes input_current, output_current;
    Watts input_power, output_power;
};

/// What arrives at a load and what it draws there.
struct LoadState {
    Watts power;
    Volts voltage;
    Amperes current;
};

/// All loads at one level, all batteries at one end of their windows.
struct BudgetCase {
    LoadLevel level = LoadLevel::typical;
    BatteryEnd end = BatteryEnd::full;
    bool settles = true;                   ///< no: some battery or way cannot bring what is asked
    std::optional<std::size_t> exhausted;  ///< the battery that cannot
    Watts way_loss;                        ///< in ribbons, contacts and leads on budgeted ways
    FeedCase feed;                         ///< what it asks of the promises
    std::vector<BatteryState> batteries;
    std::vector<StageState> stages;
    std::vector<LoadState> loads;
};

/// How long each battery lasts with all loads at one level, at the middle of its window.
struct Runtime {
    LoadLevel level = LoadLevel::typical;
    std::size_t battery = 0;
    Hours time;
};

struct BudgetResult {
    std::vector<BudgetCase> cases;  ///< idle, typical, peak; full and empty of each
    std::vector<Runtime> runtimes;  ///< none of a level that does not settle or draws nothing
};

/// One case. A stage draws what it gives over its efficiency, a load its power whatever the voltage
/// (common practice); the loss of a promise's way belongs to the stage that feeds it. Batteries,
/// stages and ways are solved in turn until nothing changes.
BudgetCase solve_budget(const Design& design, const FeedNetworks& networks, LoadLevel level,
                        BatteryEnd end);

/// All of them; nothing for a design without a budget.
BudgetResult solve_budget(const Design& design, const FeedNetworks& networks);

/// What the budget asks of the promises at peak, batteries empty.
FeedCase worst_case(const Design& design, const FeedNetworks& networks);

/// Finds stages and batteries over their limits, and stages that cannot make their output.
Findings check_budget(const Design& design, const Wiring& wiring);

}  // namespace pinfold
