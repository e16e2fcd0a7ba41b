#include "bringup/probe_order.hpp"

#include <algorithm>
#include <span>
#include <tuple>

#include "bringup/cover.hpp"
#include "bringup/hand_walk.hpp"

namespace pinfold {
namespace {

bool is_of_a_whole_ribbon(FaultKind kind) {
    return kind == FaultKind::order || kind == FaultKind::away || kind == FaultKind::shift;
}

/// Moves the fewest readings that show every fault of a whole ribbon to their own stage.
void set_ribbons_apart(const Bench& bench, std::vector<Probe>& probes,
                       const std::vector<std::size_t>& faults) {
    CoverProblem problem;
    std::vector<std::size_t> whole;
    for (const std::size_t fault : faults) {
        if (is_of_a_whole_ribbon(bench.faults[fault].kind)) whole.push_back(fault);
    }
    problem.faults = whole.size();
    for (const Probe& probe : probes) {
        problem.shows.emplace_back(whole.size());
        if (probe.stage != ReadingStage::signal) continue;
        for (std::size_t f = 0; f < whole.size(); ++f) {
            if (shows(bench, probe, whole[f])) problem.shows.back().set(f);
        }
    }
    for (const std::size_t test : least_cover(problem, 500).tests) {
        probes[test].stage = ReadingStage::ribbon;
        probes[test].why += "; a ribbon turned, shifted or out shows here";
    }
}

/// 0 if a supply's reading is against ground, else 1: within its stage it comes first.
int urgency(const Bench& bench, const Probe& probe) {
    if (probe.stage != ReadingStage::supply) return 0;
    const auto is_ground = [&](std::size_t site) {
        return bench.pieces.standing(bench.wiring.piece_of(bench.sites.all()[site].point)) ==
               Standing::ground;
    };
    return is_ground(probe.from) || is_ground(probe.to) ? 0 : 1;
}

void count_unshared(const Bench& bench, std::vector<Probe>& probes,
                    const std::vector<std::size_t>& faults) {
    for (const std::size_t fault : faults) {
        Probe* only = nullptr;
        std::size_t times = 0;
        for (Probe& probe : probes) {
            if (!shows(bench, probe, fault)) continue;
            only = &probe;
            ++times;
        }
        if (times == 1) ++only->shows;
    }
}

}  // namespace

std::vector<Probe> in_order(const Bench& bench, std::vector<Probe> probes,
                            const std::vector<std::size_t>& faults) {
    set_ribbons_apart(bench, probes, faults);
    const auto leg_of = [&](const Probe& probe) {
        return std::pair(probe.stage, urgency(bench, probe));
    };
    std::ranges::sort(probes, {}, [&](const Probe& probe) {
        return std::tuple(leg_of(probe), probe.from, probe.to);
    });
    for (std::size_t first = 0, end = 0; first < probes.size(); first = end) {
        while (end < probes.size() && leg_of(probes[end]) == leg_of(probes[first])) ++end;
        shorten_walk(bench, std::span(probes).subspan(first, end - first),
                     first == 0 ? nullptr : &probes[first - 1]);
    }
    for (std::size_t i = 0; i < probes.size(); ++i) probes[i].number = i + 1;
    count_unshared(bench, probes, faults);
    return probes;
}

}  // namespace pinfold
