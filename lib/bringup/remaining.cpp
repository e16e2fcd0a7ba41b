#include "bringup/remaining.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace pinfold {
namespace {

bool is_measured(const Bench& bench, const Probe& probe, const MeterReadings& readings) {
    return std::ranges::any_of(readings.rows, [&](const MeterReading& row) {
        if (!row.with.empty()) return false;
        const auto from = bench.sites.at(row.from);
        const auto to = bench.sites.at(row.to);
        return (from == probe.from && to == probe.to) || (from == probe.to && to == probe.from);
    });
}

bool is_measured(const DeviceProbe& probe, const MeterReadings& readings) {
    return std::ranges::any_of(readings.rows, [&](const MeterReading& row) {
        const bool same_way = row.from == probe.from && row.to == probe.to;
        const bool other_way = row.from == probe.to && row.to == probe.from;
        return row.with == std::vector{probe.device} && (same_way || other_way);
    });
}

/// The readings of an assembly with a device plugged in that a diagnosis asks for.
std::vector<DeviceProbe> asked_for(const Bench& bench, const Diagnosis& diagnosis,
                                   std::size_t number) {
    const DeviceMeter meter(bench.design, bench.wiring);
    std::vector<DeviceProbe> asked;
    for (DeviceProbe& probe : device_probes(bench.design, bench.wiring, meter)) {
        const auto is_asked = [&](const NextReading& next) {
            return next.with == bench.design.boards[probe.device].name &&
                   next.from == bench.wiring.name_of(probe.from, bench.design) &&
                   next.to == bench.wiring.name_of(probe.to, bench.design);
        };
        if (std::ranges::none_of(diagnosis.next, is_asked)) continue;
        probe.number = ++number;
        asked.push_back(std::move(probe));
    }
    return asked;
}

}  // namespace

ProbePlan remaining(const Bench& bench, ProbePlan plan, const MeterReadings& readings,
                    const Diagnosis& diagnosis) {
    if (diagnosis.sound) {
        std::erase_if(plan.probes,
                      [&](const Probe& probe) { return is_measured(bench, probe, readings); });
        std::erase_if(plan.devices,
                      [&](const DeviceProbe& probe) { return is_measured(probe, readings); });
        return plan;
    }
    std::size_t number = plan.probes.size() + plan.devices.size();
    plan.probes.clear();
    for (const NextReading& next : diagnosis.next) {
        if (!next.alone.empty() || !next.with.empty()) continue;  // not of the bare assembly
        Probe probe;
        probe.number = ++number;
        probe.from = *bench.sites.at(*find_point(bench.design, bench.wiring, next.from).point);
        probe.to = *bench.sites.at(*find_point(bench.design, bench.wiring, next.to).point);
        probe.closed = bench.sound()[probe.from] == bench.sound()[probe.to];
        probe.stage = ReadingStage::further;
        probe.why = fmt::format("tells apart {}", fmt::join(next.tells_apart, ", "));
        plan.probes.push_back(std::move(probe));
    }
    plan.devices = asked_for(bench, diagnosis, number);
    return plan;
}

}  // namespace pinfold
