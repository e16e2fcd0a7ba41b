#include "check/budget.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

namespace pinfold {
namespace {

BudgetResult result_of(const std::string& yaml) {
    const Design design = bench_design(yaml);
    const Wiring wiring = trace(design);
    return solve_budget(design, FeedNetworks(design, wiring));
}

/// A budget alone, one boost stage; `battery` goes on in the battery's map.
std::string alone(const std::string& battery, const std::string& stage, const std::string& load) {
    return "pinfold: 1\ntitle: alone\nbudget:\n  batteries: {pack: {" + battery +
           "}}\n  stages: {up: {kind: boost, from: pack, " + stage + "}}\n  loads: {lamp: {" +
           load + "}}\n";
}

}  // namespace

// 3.7 V 2.5 Ah, 0.9 of it usable, 0.88, 5 V 0.6 A: E u eta / P = 2.442 h; 1.06534 A at 3.2 V, with
// 0.1 ohm in series 1.10339 A at 3.08966 V. Worked outside.
TEST_CASE("a battery lasts its usable energy over what is drawn from it") {
    const std::string stage = "output: 5 V, efficiency: 88 %";
    const std::string load = "from: up, typical: 3 W, peak: 3 W";
    const std::string pack = "energy: 9.25 Wh, full: 4.2 V, empty: 3.2 V, usable: 90 %";
    const BudgetResult bare = result_of(alone(pack, stage, load));
    REQUIRE(bare.runtimes.size() == 2);  // nothing runs when idle
    CHECK(bare.runtimes[0].time.value() == Approx(2.442).epsilon(1e-5));
    CHECK(bare.cases.back().batteries[0].current.value() == Approx(1.06534).epsilon(1e-5));
    const BudgetResult worn = result_of(alone(pack + ", resistance: 100 mohm", stage, load));
    CHECK(worn.cases.back().batteries[0].current.value() == Approx(1.10339).epsilon(1e-5));
    CHECK(worn.cases.back().batteries[0].terminals.value() == Approx(3.08966).epsilon(1e-6));
}

// P + I^2 R of the way, over the efficiency; V = (E + sqrt(E^2 - 4PR)) / 2. AWG 28, 2 x 500 mm.
TEST_CASE("the loss of a way belongs to the stage that feeds it") {
    const double diameter = 0.127 * std::pow(92.0, (36.0 - 28.0) / 39.0);
    const double ohms = (1.0 + 0.00393 * 40.0) / 58.0 / (std::acos(-1.0) / 4 * diameter * diameter);
    const double volts = (5.0 + std::sqrt(25.0 - 4.0 * 3.6 * ohms)) / 2.0;
    const BudgetResult result = result_of(budgeted("input-current: 9 A"));
    const BudgetCase& peak = result.cases.back();
    CHECK(peak.loads[0].voltage.value() == Approx(volts).epsilon(1e-9));
    CHECK(peak.stages[0].output_power.value() == Approx(5.0 * 3.6 / volts).epsilon(1e-9));
    CHECK(peak.stages[0].input_current.value() ==
          Approx(5.0 * 3.6 / volts / 0.9 / 3.0).epsilon(1e-9));
}

TEST_CASE("a battery that its resistance starves is told") {
    const std::string yaml =
        alone("energy: 1 Wh, full: 4 V, empty: 3 V, resistance: 1 ohm",
              "output: 5 V, efficiency: 100 %", "from: up, typical: 1 W, peak: 2.3 W");
    CHECK(told(yaml, "battery-overloaded") ==
          "pack, empty, cannot give what is asked of it at peak through its 1 ohm");
}

}  // namespace pinfold
