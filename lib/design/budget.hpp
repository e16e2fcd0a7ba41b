// The power budget: batteries, converter stages, loads, and the promises between them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// A battery, whatever its chemistry: an energy and a window of voltage.
struct Battery {
    std::string name;
    WattHours energy;
    Volts full, empty;
    Percent usable{100.0};           ///< share of the energy that may be taken
    Ohms resistance;                 ///< of cells, fuse and wires to the first stage; nothing if 0
    std::optional<Amperes> current;  ///< the most it may give
    Mark at;
};

/// A converter raises its voltage, lowers it, or does either as needed.
enum class StageKind { boost, buck, buck_boost };

std::string_view name_of(StageKind kind);

/// What a stage or load takes its power from.
struct PowerOrigin {
    enum class Kind { battery, stage };
    Kind kind = Kind::battery;
    std::size_t place = 0;             ///< in the batteries or the stages
    std::optional<std::size_t> carry;  ///< the promise whose way lies between, if any
};

struct Stage {
    std::string name;
    StageKind kind = StageKind::buck_boost;
    PowerOrigin from;
    Volts output;
    Percent efficiency;
    std::optional<Amperes> input_current, output_current;  ///< the most it stands
    std::optional<Watts> input_power, output_power;
    Mark at;
};

/// Behind a regulator of its own: draws its power at whatever voltage arrives.
struct BudgetLoad {
    std::string name;
    PowerOrigin from;
    Watts idle, typical, peak;
    Mark at;
};

/// A design without a budget has an empty one.
struct Budget {
    std::vector<Battery> batteries;
    std::vector<Stage> stages;  ///< each after the one it takes its power from
    std::vector<BudgetLoad> loads;

    bool is_empty() const { return batteries.empty() && stages.empty() && loads.empty(); }
    /// What gives each promise its supply that the budget speaks of, by promise.
    std::map<std::size_t, PowerOrigin> origins() const;
};

}  // namespace pinfold
