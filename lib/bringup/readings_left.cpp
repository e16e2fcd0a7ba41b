#include <set>

#include "bringup/next_device.hpp"
#include "bringup/next_reading.hpp"
#include "bringup/probe_plan.hpp"

namespace pinfold {
namespace {

/// The kinds of fault a reading of the plan would show.
std::vector<std::string> shown_by(const Bench& bench, const Probe& probe) {
    std::set<std::string> shown;
    for (std::size_t f = 0; f < bench.faults.size(); ++f) {
        if (shows(bench, probe, f)) shown.insert(bench.faults[f].cause);
    }
    return {shown.begin(), shown.end()};
}

}  // namespace

std::vector<NextReading> readings_left(const Inquiry& inquiry) {
    const Bench& bench = inquiry.bench;
    std::set<std::pair<std::size_t, std::size_t>> measured;
    for (const MeterReading& row : inquiry.readings.rows) {
        const auto from = bench.sites.at(row.from);
        const auto to = bench.sites.at(row.to);
        if (from && to && row.with.empty()) measured.insert(std::minmax(*from, *to));
    }
    std::vector<NextReading> next;
    for (const Probe& probe : probe_plan(bench).probes) {
        if (next.size() == most_next) return next;
        if (measured.contains(std::minmax(probe.from, probe.to))) continue;
        next.emplace_back();
        next.back().from = inquiry.name(bench.sites.all()[probe.from].point);
        next.back().to = inquiry.name(bench.sites.all()[probe.to].point);
        next.back().tells_apart = shown_by(bench, probe);
    }
    return next.empty() ? device_readings_left(inquiry) : next;
}

}  // namespace pinfold
