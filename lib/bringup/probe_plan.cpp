#include "bringup/probe_plan.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "bringup/cover.hpp"
#include "bringup/plan_bounds.hpp"
#include "bringup/probe_candidates.hpp"
#include "bringup/probe_order.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_search = 4'000'000;  ///< faults times candidates times steps

/// Which candidates show a fault. Faults that are shown by the same ones count once.
std::vector<std::vector<std::size_t>> distinct_columns(const Bench& bench,
                                                       const std::vector<Probe>& candidates,
                                                       const std::vector<std::size_t>& faults) {
    std::set<std::vector<std::size_t>> known;
    std::vector<std::vector<std::size_t>> columns;
    for (const std::size_t fault : faults) {
        std::vector<std::size_t> column;
        for (std::size_t t = 0; t < candidates.size(); ++t) {
            if (shows(bench, candidates[t], fault)) column.push_back(t);
        }
        if (known.insert(column).second) columns.push_back(std::move(column));
    }
    return columns;
}

std::vector<Probe> chosen(const Bench& bench, const ProbeCandidates& candidates,
                          const std::vector<std::size_t>& faults) {
    const auto columns = distinct_columns(bench, candidates.probes, faults);
    CoverProblem problem{columns.size(), {}, {}};
    problem.shows.assign(candidates.probes.size(), Bits(columns.size()));
    for (std::size_t f = 0; f < columns.size(); ++f) {
        for (const std::size_t test : columns[f]) problem.shows[test].set(f);
    }
    for (std::size_t t = 0; t < candidates.promised; ++t) problem.kept.push_back(t);
    const std::size_t size = std::max<std::size_t>(1, columns.size() * candidates.probes.size());
    std::vector<Probe> probes;
    for (const std::size_t test : least_cover(problem, most_search / size + 1).tests) {
        probes.push_back(candidates.probes[test]);
    }
    return probes;
}

void count_outcomes(const Bench& bench, const std::vector<std::size_t>& faults, ProbePlan& plan) {
    std::set<std::vector<bool>> outcomes{std::vector<bool>(plan.probes.size(), false)};
    std::set<Partition> all{bench.sound()};
    for (const std::size_t fault : faults) {
        std::vector<bool> outcome;
        for (const Probe& probe : plan.probes) outcome.push_back(shows(bench, probe, fault));
        outcomes.insert(std::move(outcome));
        all.insert(bench.partitions[fault]);
    }
    plan.told_apart = outcomes.size();
    plan.most_told_apart = all.size();
}

}  // namespace

bool shows(const Bench& bench, const Probe& probe, std::size_t fault) {
    return bench.is_joined(bench.partitions[fault], probe.from, probe.to) != probe.closed;
}

ProbePlan probe_plan(const Bench& bench) {
    std::vector<std::size_t> seen, unseen;
    for (std::size_t f = 0; f < bench.faults.size(); ++f) {
        if (bench.faults[f].at_device) continue;
        (bench.partitions[f] == bench.sound() ? unseen : seen).push_back(f);
    }
    const ProbeCandidates candidates = probe_candidates(bench, seen);
    ProbePlan plan;
    plan.probes = in_order(bench, chosen(bench, candidates, seen), seen);
    plan.devices =
        device_probes(bench.design, bench.wiring, DeviceMeter(bench.design, bench.wiring));
    std::erase_if(plan.devices, [](const DeviceProbe& probe) { return probe.is_further; });
    for (std::size_t i = 0; i < plan.devices.size(); ++i) {
        plan.devices[i].number = plan.probes.size() + i + 1;
    }
    plan.readings = plan.probes.size();
    plan.faults = seen.size();
    count_outcomes(bench, seen, plan);
    plan.least = least_readings(bench, seen, candidates.promised);
    plan.unseen = limitations_of_unseen(bench, unseen);
    plan.alike = limitations_of_alike(bench, seen);
    plan.arrives = std::ranges::all_of(bench.wiring.passes(),
                                       [](const Pass& pass) { return pass.state == State::good; });
    return plan;
}

}  // namespace pinfold
