#include "bringup/probe_order.hpp"

#include <algorithm>

#include "bringup/cover.hpp"

namespace pinfold {
namespace {

constexpr std::size_t other_port = 200;
constexpr std::size_t other_board = 2000;

bool shows(const Bench& bench, const Probe& probe, std::size_t fault) {
    const Partition& partition = bench.partitions[fault];
    return (partition[probe.from] == partition[probe.to]) != probe.closed;
}

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

std::size_t distance(const Bench& bench, std::size_t one, std::size_t other) {
    const ContactRef& here = bench.contact(one);
    const ContactRef& there = bench.contact(other);
    if (here.port.board != there.port.board) return other_board;
    if (here.port != there.port) return other_port;
    return std::max(here.contact, there.contact) - std::min(here.contact, there.contact);
}

std::vector<Probe> in_order(const Bench& bench, std::vector<Probe> probes,
                            const std::vector<std::size_t>& faults) {
    set_ribbons_apart(bench, probes, faults);
    const auto key = [&](const Probe& probe) {
        return std::tuple(probe.stage, urgency(bench, probe), probe.from, probe.to);
    };
    std::ranges::sort(probes, {}, key);
    const auto same_leg = [&](const Probe& one, const Probe& other) {
        return one.stage == other.stage && urgency(bench, one) == urgency(bench, other);
    };
    for (std::size_t i = 1; i < probes.size(); ++i) {
        std::size_t best = i;
        const auto way = [&](std::size_t k) {
            return distance(bench, probes[i - 1].from, probes[k].from) +
                   distance(bench, probes[i - 1].to, probes[k].to);
        };
        for (std::size_t k = i; k < probes.size() && same_leg(probes[i], probes[k]); ++k) {
            if (way(k) < way(best)) best = k;
        }
        // The others keep their order, so that a tie goes to the lower contact.
        std::rotate(probes.begin() + static_cast<std::ptrdiff_t>(i),
                    probes.begin() + static_cast<std::ptrdiff_t>(best),
                    probes.begin() + static_cast<std::ptrdiff_t>(best) + 1);
    }
    for (std::size_t i = 0; i < probes.size(); ++i) probes[i].number = i + 1;
    count_unshared(bench, probes, faults);
    return probes;
}

}  // namespace pinfold
