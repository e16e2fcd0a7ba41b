#include "bringup/hand_walk.hpp"

#include <algorithm>

namespace pinfold {
namespace {

constexpr std::size_t other_port = 200;
constexpr std::size_t other_board = 2000;
constexpr int most_turnings = 40;  ///< of turning stretches; each saves some way or is the last

/// The way into the reading at `i`; nothing into the first if the hands come from nowhere, and
/// nothing past the last.
std::size_t way_into(const Bench& bench, std::span<const Probe> probes, const Probe* before,
                     std::size_t from, std::size_t to) {
    if (to >= probes.size()) return 0;
    if (from < probes.size()) return distance(bench, probes[from], probes[to]);
    return before == nullptr ? 0 : distance(bench, *before, probes[to]);
}

std::size_t walk(const Bench& bench, std::span<const Probe> probes, const Probe* before) {
    std::size_t length = 0;
    for (std::size_t i = 0; i < probes.size(); ++i) {
        length += way_into(bench, probes, before, i - 1, i);  // before the first is nowhere
    }
    return length;
}

/// Always the nearest reading next; a tie goes to the one that stands first.
void take_nearest(const Bench& bench, std::span<Probe> probes, const Probe* before) {
    for (std::size_t i = before == nullptr ? 1 : 0; i < probes.size(); ++i) {
        std::size_t best = i;
        const auto way = [&](std::size_t k) { return way_into(bench, probes, before, i - 1, k); };
        for (std::size_t k = i + 1; k < probes.size(); ++k) {
            if (way(k) < way(best)) best = k;
        }
        const auto at = [&](std::size_t k) {
            return probes.begin() + static_cast<std::ptrdiff_t>(k);
        };
        std::rotate(at(i), at(best), at(best) + 1);
    }
}

/// Turns stretches round while that saves a way.
void turn_stretches(const Bench& bench, std::span<Probe> probes, const Probe* before) {
    const auto way = [&](std::size_t from, std::size_t to) {
        return way_into(bench, probes, before, from, to);
    };
    bool saved = true;
    for (int round = 0; saved && round < most_turnings; ++round) {
        saved = false;
        for (std::size_t i = before == nullptr ? 1 : 0; i < probes.size(); ++i) {
            for (std::size_t k = i + 1; k < probes.size(); ++k) {
                const std::size_t turned = way(i - 1, k) + way(i, k + 1);
                if (turned >= way(i - 1, i) + way(k, k + 1)) continue;
                std::reverse(probes.begin() + static_cast<std::ptrdiff_t>(i),
                             probes.begin() + static_cast<std::ptrdiff_t>(k + 1));
                saved = true;
            }
        }
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

std::size_t distance(const Bench& bench, const Probe& one, const Probe& other) {
    return distance(bench, one.from, other.from) + distance(bench, one.to, other.to);
}

void shorten_walk(const Bench& bench, std::span<Probe> probes, const Probe* before) {
    std::vector<Probe> as_they_stand(probes.begin(), probes.end());
    take_nearest(bench, probes, before);
    turn_stretches(bench, probes, before);
    turn_stretches(bench, as_they_stand, before);
    if (walk(bench, as_they_stand, before) < walk(bench, probes, before)) {
        std::ranges::move(as_they_stand, probes.begin());
    }
}

}  // namespace pinfold
