#include "bringup/remaining.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace pinfold {
namespace {

bool is_measured(const Bench& bench, const Probe& probe, const MeterReadings& readings) {
    return std::ranges::any_of(readings.rows, [&](const MeterReading& row) {
        const auto from = bench.sites.at(row.from);
        const auto to = bench.sites.at(row.to);
        return (from == probe.from && to == probe.to) || (from == probe.to && to == probe.from);
    });
}

}  // namespace

ProbePlan remaining(const Bench& bench, ProbePlan plan, const MeterReadings& readings,
                    const Diagnosis& diagnosis) {
    if (diagnosis.sound) {
        std::erase_if(plan.probes,
                      [&](const Probe& probe) { return is_measured(bench, probe, readings); });
        return plan;
    }
    std::size_t number = plan.probes.size();
    plan.probes.clear();
    for (const NextReading& next : diagnosis.next) {
        if (!next.alone.empty()) continue;  // not a reading of the assembly
        Probe probe;
        probe.number = ++number;
        probe.from = *bench.sites.at(*find_point(bench.design, bench.wiring, next.from).point);
        probe.to = *bench.sites.at(*find_point(bench.design, bench.wiring, next.to).point);
        probe.closed = bench.sound()[probe.from] == bench.sound()[probe.to];
        probe.stage = ReadingStage::further;
        probe.why = fmt::format("tells apart {}", fmt::join(next.tells_apart, ", "));
        plan.probes.push_back(std::move(probe));
    }
    return plan;
}

}  // namespace pinfold
