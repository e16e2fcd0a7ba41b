// The order of readings: what is dangerous first, and a hand that walks little.
#include <catch2/catch.hpp>
#include <iostream>
#include <limits>

#include "bringup/example.hpp"
#include "bringup/hand_walk.hpp"

namespace pinfold {
namespace {

std::size_t walk(const Bench& bench, const std::vector<Probe>& probes) {
    std::size_t length = 0;
    for (std::size_t i = 1; i < probes.size(); ++i)
        length += distance(bench, probes[i - 1], probes[i]);
    return length;
}

/// The shortest walk over some readings from the first of them: over all orders, by their sets.
std::size_t shortest(const Bench& bench, const std::vector<Probe>& probes) {
    const std::size_t count = probes.size();
    constexpr std::size_t far = std::numeric_limits<std::size_t>::max() / 2;
    std::vector<std::vector<std::size_t>> best(std::size_t{1} << count,
                                               std::vector<std::size_t>(count, far));
    best[1][0] = 0;
    for (std::size_t set = 1; set < best.size(); ++set) {
        for (std::size_t last = 0; last < count; ++last) {
            if (best[set][last] >= far) continue;
            for (std::size_t next = 0; next < count; ++next) {
                if ((set >> next & 1) != 0) continue;
                std::size_t& there = best[set | std::size_t{1} << next][next];
                there =
                    std::min(there, best[set][last] + distance(bench, probes[last], probes[next]));
            }
        }
    }
    return *std::ranges::min_element(best.back());
}

/// The readings of one stage, in their order.
std::vector<Probe> leg(const ProbePlan& plan, ReadingStage stage) {
    std::vector<Probe> probes;
    for (const Probe& probe : plan.probes) {
        if (probe.stage == stage) probes.push_back(probe);
    }
    return probes;
}

/// Whether either end of a reading stands so.
bool stands(const Planned& there, const Probe& probe, Standing wanted) {
    const auto is_so = [&](std::size_t site) {
        const Point point = there.bench.sites.all()[site].point;
        return there.bench.pieces.standing(there.wiring.piece_of(point)) == wanted;
    };
    return is_so(probe.from) || is_so(probe.to);
}

}  // namespace

// Expected: the order of danger: a supply on ground, then on its neighbours, before anything.
TEST_CASE("readings at supplies come before all others, those against ground first") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    bool others = false, neighbours = false;
    for (const Probe& probe : there.plan.probes) {
        const bool supply = stands(there, probe, Standing::supply);
        const bool ground = stands(there, probe, Standing::ground);
        others = others || probe.closed || !supply;
        if (probe.closed || !supply) continue;
        CHECK_FALSE(others);
        CHECK_FALSE((ground && neighbours));
        neighbours = neighbours || !ground;
    }
    CHECK(std::ranges::is_sorted(there.plan.probes, {}, &Probe::stage));
}

// Expected: the shortest of all orders of the same readings (independent method: over subsets).
TEST_CASE("the hand walks at most a tenth further than over the shortest order of ten readings") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    std::size_t walked = 0, least = 0;
    for (const ReadingStage stage : {ReadingStage::signal, ReadingStage::neighbour}) {
        const std::vector<Probe> all = leg(there.plan, stage);
        for (std::size_t first = 0; first + 10 <= all.size(); first += 10) {
            const std::vector<Probe> ten(all.begin() + static_cast<std::ptrdiff_t>(first),
                                         all.begin() + static_cast<std::ptrdiff_t>(first + 10));
            walked += walk(there.bench, ten);
            least += shortest(there.bench, ten);
        }
    }
    std::cout << folder << ": the hand walks " << walked << " where " << least << " is the least\n";
    CHECK(10 * walked <= 11 * least);
}

// Expected: what a hand would do without thinking: the same stages, port by port, contact by
// contact.
TEST_CASE("the whole walk is no longer than that over the readings sorted by their contacts") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    std::vector<Probe> sorted = there.plan.probes;
    std::ranges::sort(sorted, {}, [&](const Probe& probe) {
        const bool at_ground = stands(there, probe, Standing::ground);
        const bool waits = probe.stage == ReadingStage::supply && !at_ground;
        return std::tuple(probe.stage, waits, probe.from, probe.to);
    });
    CHECK(walk(there.bench, there.plan.probes) <= walk(there.bench, sorted));
}

}  // namespace pinfold
