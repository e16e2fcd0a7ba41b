#include "bringup/plan_bounds.hpp"

#include <algorithm>
#include <bit>
#include <set>

namespace pinfold {
namespace {

/// The first site of its piece, parted from it: its going renumbers the others.
std::optional<std::size_t> first_parted(const Bench& bench, const Partition& now) {
    const Partition& sound = bench.sound();
    for (std::size_t s = 0; s < now.size(); ++s) {
        if (now[s] == sound[s]) continue;
        const std::size_t first = sound[s];
        if (now[s] != s || std::ranges::count(now, static_cast<std::uint32_t>(first)) != 1) {
            return std::nullopt;
        }
        for (std::size_t k = s; k < now.size(); ++k) {
            if (sound[k] == first ? now[k] != s : now[k] != sound[k]) return std::nullopt;
        }
        return first;
    }
    return std::nullopt;
}

/// A site that a fault parts from everything, all else staying as it is.
std::optional<std::size_t> parted_by(const Bench& bench, std::size_t fault) {
    const Partition& sound = bench.sound();
    const Partition& now = bench.partitions[fault];
    std::optional<std::size_t> parted;
    for (std::size_t s = 0; s < now.size(); ++s) {
        if (now[s] == s && sound[s] != s) {
            if (parted) return std::nullopt;
            parted = s;
        }
    }
    if (parted && std::ranges::count(now, static_cast<std::uint32_t>(*parted)) == 1) {
        return parted;
    }
    return first_parted(bench, now);
}

}  // namespace

LeastReadings least_readings(const Bench& bench, const std::vector<std::size_t>& faults,
                             std::size_t promised) {
    std::set<std::size_t> parted;
    std::set<std::pair<std::uint32_t, std::uint32_t>> bridged;
    for (const std::size_t fault : faults) {
        if (const auto site = parted_by(bench, fault)) parted.insert(*site);
        if (bench.faults[fault].kind != FaultKind::bridge) continue;
        const auto& [one, other] = bench.faults[fault].change.added.front();
        bridged.insert(std::minmax(bench.wiring.piece_of(one), bench.wiring.piece_of(other)));
    }
    return {std::max(promised, (parted.size() + 1) / 2), bridged.size()};
}

std::size_t least_readings_to_tell(std::size_t outcomes) {
    return outcomes < 2 ? 0 : static_cast<std::size_t>(std::bit_width(outcomes - 1));
}

}  // namespace pinfold
