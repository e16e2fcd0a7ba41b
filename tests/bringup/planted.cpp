// Every plausible fault planted in each example: the plan shows it, and its readings name it.
#include <catch2/catch.hpp>
#include <iostream>

#include "bringup/diagnosis.hpp"
#include "bringup/probe_plan.hpp"
#include "check/bench.hpp"

namespace pinfold {
namespace {

MeterReadings measured(const Bench& bench, const ProbePlan& plan, const Partition& partition) {
    MeterReadings readings;
    for (const Probe& probe : plan.probes) {
        const bool closed = partition[probe.from] == partition[probe.to];
        readings.rows.push_back({static_cast<int>(probe.number),
                                 bench.sites.all()[probe.from].point,
                                 bench.sites.all()[probe.to].point,
                                 closed,
                                 {},
                                 {}});
    }
    return readings;
}

}  // namespace

// Expected: what was planted; an independent count over the partitions.
TEST_CASE("every planted fault is shown by the plan and is among the causes told") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples" / folder / "design.yaml", library);
    const Wiring wiring = trace(design);
    const Bench bench = set_up(design, wiring);
    const ProbePlan plan = probe_plan(bench);
    CHECK(plan.probes.size() >= plan.least_closed + plan.least_open);
    CHECK(diagnose(design, wiring, measured(bench, plan, bench.sound())).sound);
    std::size_t planted = 0;
    for (std::size_t f = 0; f < bench.faults.size(); ++f) {
        if (bench.faults[f].at_device || bench.partitions[f] == bench.sound()) continue;
        INFO(bench.faults[f].text);
        ++planted;
        const Diagnosis told = diagnose(design, wiring, measured(bench, plan, bench.partitions[f]));
        CHECK(told.explained);
        CHECK_FALSE(told.unexpected.empty());
        const bool named = std::ranges::any_of(told.causes, [&](const Cause& cause) {
            return cause.faults == 1 && cause.text.find(bench.faults[f].text) != std::string::npos;
        });
        CHECK((named || told.more_causes > 0 ||
               std::ranges::any_of(told.causes, [](const Cause& cause) {
                   return cause.text.find("more like it") != std::string::npos;
               })));
    }
    std::cout << folder << ": " << planted << " faults planted, all shown by " << plan.probes.size()
              << " readings\n";
    CHECK(planted == plan.faults);
}

// Expected: the definition of a least plan; dropping a reading loses a fault or a promise.
TEST_CASE("no reading of a plan can be left out without losing a fault or a promise") {
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    const Wiring wiring = trace(design);
    const ProbePlan plan = probe_plan(set_up(design, wiring));
    for (const Probe& probe : plan.probes) {
        CAPTURE(probe.why);
        CHECK((probe.shows > 0 || probe.why.find("arrives") != std::string::npos));
    }
}

// Expected: ceil(log2 k), the number of yes-or-no answers that tell k things apart (closed form).
TEST_CASE("telling k outcomes apart takes the binary logarithm of readings") {
    CHECK(least_readings_to_tell(1) == 0);
    CHECK(least_readings_to_tell(2) == 1);
    CHECK(least_readings_to_tell(5) == 3);
    CHECK(least_readings_to_tell(8) == 3);
}

}  // namespace pinfold
