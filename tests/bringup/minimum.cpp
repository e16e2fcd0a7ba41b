// Plans of small assemblies held against every choice of readings there is.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <iostream>
#include <set>

#include "bringup/example.hpp"

namespace pinfold {
namespace {

using Shown = std::set<std::size_t>;  ///< readings that show one fault

/// Whether `most` readings more show every fault that none of `taken` shows.
bool suffice(const std::vector<Shown>& faults, std::set<std::size_t>& taken, std::size_t most) {
    const auto is_shown = [&](const Shown& shown) {
        return std::ranges::any_of(shown, [&](std::size_t r) { return taken.contains(r); });
    };
    const auto left = std::ranges::find_if_not(faults, is_shown);
    if (left == faults.end()) return true;
    if (most == 0) return false;
    for (const std::size_t reading : *left) {
        taken.insert(reading);
        const bool enough = suffice(faults, taken, most - 1);
        taken.erase(reading);
        if (enough) return true;
    }
    return false;
}

/// The fewest readings between any two sites that show every fault, one for each promise among
/// them: every choice tried, smallest first.
std::size_t fewest(const Planned& there) {
    const std::size_t count = there.bench.sites.all().size();
    const auto number = [&](std::size_t one, std::size_t other) {
        return std::min(one, other) * count + std::max(one, other);
    };
    std::set<Shown> faults;
    for (std::size_t f = 0; f < there.bench.faults.size(); ++f) {
        const Partition& partition = there.bench.partitions[f];
        if (there.bench.faults[f].at_device || partition == there.bench.sound()) continue;
        Shown shown;
        for (std::size_t one = 0; one < count; ++one) {
            for (std::size_t other = one + 1; other < count; ++other) {
                const bool differs = there.bench.is_joined(partition, one, other) !=
                                     there.bench.is_joined(there.bench.sound(), one, other);
                if (differs) shown.insert(number(one, other));
            }
        }
        faults.insert(std::move(shown));
    }
    std::set<std::size_t> taken;
    for (const Pass& pass : there.wiring.passes()) {
        taken.insert(number(*there.bench.sites.at(there.wiring.point_of(pass.from)),
                            *there.bench.sites.at(there.wiring.point_of(pass.to))));
    }
    // Those with the fewest readings first, so that every wrong choice ends early.
    std::vector<Shown> order(faults.begin(), faults.end());
    std::ranges::stable_sort(order, {}, &Shown::size);
    const std::size_t promised = taken.size();
    for (std::size_t more = 0;; ++more) {
        if (suffice(order, taken, more)) return promised + more;
    }
}

/// Two devices on one ribbon, whose contacts bear these signals.
std::string on_a_ribbon(int ways, const std::string& signals, const std::string& more) {
    std::string yaml = "pinfold: 1\ntitle: small\ndevices:\n";
    for (const char* name : {"one", "two"}) {
        yaml += fmt::format(
            "  {}: {{ports: {{p: {{receptacle: ffc-1.00-bottom, positions: {}, first-contact: "
            "left, signals: [{}]}}}}}}\n",
            name, ways, signals);
    }
    return yaml + fmt::format(
                      "ribbons:\n  r: {{type: ffc-1.00, conductors: {}, length: 50 mm, copper: "
                      "opposite-side, lay: [straight], faces: {{a: up, b: down}}}}\n"
                      "joins:\n- one.p + r.a\n- r.b + two.p\n{}",
                      ways, more);
}

}  // namespace

// Expected: every choice of readings tried, smallest first (independent method).
TEST_CASE("a plan of a small assembly has no more readings than the smallest there is") {
    const std::string supply =
        "carry:\n- {supply: 5V, from: one.p, to: two.p, voltage: 5 V, least: 4 V, current: 0.1 "
        "A}\n";
    const std::string design = GENERATE_COPY(
        on_a_ribbon(4, "A, B, GND, V", ""), on_a_ribbon(4, "A, GND, GND, 5V", supply),
        on_a_ribbon(5, "5V, A, GND, B, GND", supply), on_a_ribbon(6, "A, GND, B, C, GND, D", ""));
    INFO(design);
    const Planned there(text_source(design));
    const std::size_t least = fewest(there);
    std::cout << "a small plan: " << there.plan.probes.size() << " readings, fewest " << least
              << ", bound " << there.plan.least.closed + there.plan.least.open << "\n";
    CHECK(there.plan.probes.size() == least);
    CHECK(there.plan.least.closed + there.plan.least.open <= least);
}

}  // namespace pinfold
