// Every plausible fault planted in each example: the plan shows it, and its readings name it.
#include <array>
#include <catch2/catch.hpp>
#include <iostream>

#include "bringup/example.hpp"

namespace pinfold {
namespace {

/// What a meter shows between two ends of a ribbon that is out of its seats, under one fault.
bool is_closed_alone(const Planned& there, const Fault& fault, Point one, Point other) {
    const auto joins = [&](Point from, Point to) {
        return (from == one && to == other) || (from == other && to == one);
    };
    const auto is_whole = [&](std::uint32_t link) {
        return std::ranges::find(fault.change.cut, link) == fault.change.cut.end();
    };
    bool closed = std::ranges::any_of(
        fault.change.added, [&](const auto& wire) { return joins(wire.first, wire.second); });
    for (std::uint32_t l = 0; l < there.wiring.links().size(); ++l) {
        const Link& link = there.wiring.links()[l];
        const bool conducts = link.kind == LinkKind::conductor && is_whole(l);
        closed = closed || (conducts && joins(link.one, link.other));
    }
    return closed;
}

/// A ribbon measured alone must leave the fault it has among the causes; how often it was asked
/// for.
std::size_t try_ribbons_alone(const Planned& there, const Diagnosis& told, const Fault& fault) {
    std::vector<std::size_t> true_causes;  // counted from 1
    for (std::size_t c = 0; c < told.causes.size(); ++c) {
        if (told.causes[c].text.find(fault.text) != std::string::npos) true_causes.push_back(c + 1);
    }
    std::size_t asked = 0;
    for (const NextReading& next : told.next) {
        if (next.alone.empty() || true_causes.empty()) continue;
        INFO(next.from << " to " << next.to);
        ++asked;
        const bool closed =
            is_closed_alone(there, fault, there.point(next.from), there.point(next.to));
        const std::vector<std::size_t>& left = closed ? next.if_closed : next.if_open;
        CHECK(std::ranges::find_first_of(true_causes, left) != true_causes.end());
    }
    return asked;
}

}  // namespace

// Expected: what was planted; an independent count over the partitions.
TEST_CASE("every planted fault is shown by the plan and is among the causes told") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    const auto& [library, design, wiring, bench, plan] = there;
    CHECK(plan.probes.size() >= plan.least.closed + plan.least.open);
    CHECK(diagnose(design, wiring, measured(bench, plan, bench.sound())).sound);
    std::size_t planted = 0, alone = 0;
    for (std::size_t f = 0; f < bench.faults.size(); ++f) {
        if (bench.faults[f].at_device || bench.partitions[f] == bench.sound()) continue;
        INFO(bench.faults[f].text);
        ++planted;
        const Diagnosis told = diagnose(design, wiring, measured(bench, plan, bench.partitions[f]));
        CHECK(told.explained);
        CHECK_FALSE(told.unexpected.empty());
        CHECK((told.causes.size() == 1 || !told.next.empty()));
        const bool named = std::ranges::any_of(told.causes, [&](const Cause& cause) {
            return cause.faults == 1 && cause.text.find(bench.faults[f].text) != std::string::npos;
        });
        alone += try_ribbons_alone(there, told, bench.faults[f]);
        CHECK((named || told.more_causes > 0 ||
               std::ranges::any_of(told.causes, [](const Cause& cause) {
                   return cause.text.find("more like it") != std::string::npos;
               })));
    }
    std::cout << folder << ": " << planted << " faults planted, all shown by " << plan.probes.size()
              << " readings, " << alone << " of ribbons alone asked for\n";
    CHECK(planted == plan.faults);
}

// Expected: the definition of a least plan, by counting faults with each reading left out.
TEST_CASE("no reading of a plan can be left out without losing a fault or a promise") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    for (const Probe& probe : there.plan.probes) {
        CAPTURE(probe.number, probe.why);
        std::size_t lost = 0;
        for (std::size_t f = 0; f < there.bench.faults.size(); ++f) {
            const Partition& partition = there.bench.partitions[f];
            const auto shows = [&](const Probe& any) {
                return there.bench.is_joined(partition, any.from, any.to) != any.closed;
            };
            lost += shows(probe) && std::ranges::count_if(there.plan.probes, shows) == 1 ? 1 : 0;
        }
        CHECK(lost == probe.shows);
        CHECK((lost > 0 || probe.why.find("arrives") != std::string::npos));
    }
}

// Expected: what was planted, a sample of the pairs of opens, bridges and exchanges that show.
TEST_CASE("two faults planted at once are explained, by two or by one that does the same") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    Planned there(folder);
    std::size_t tried = 0, explained = 0, named = 0;
    const std::size_t count = there.bench.faults.size();
    for (std::size_t pair = 11; pair < count * count && tried < 30; pair += 97 * 11) {
        const Fault& one = there.bench.faults[pair / count];
        const Fault& other = there.bench.faults[pair % count];
        const bool plain = one.kind >= FaultKind::open && other.kind >= FaultKind::open;
        if (pair / count >= pair % count || !plain || one.at_device || other.at_device) continue;
        const std::array<const Change*, 2> both{&one.change, &other.change};
        const Partition partition = there.bench.assembly.with(both);
        if (partition == there.bench.sound()) continue;
        const bool exchanges = !one.change.cut.empty() && !other.change.cut.empty() &&
                               (!one.change.added.empty() || !other.change.added.empty());
        if (exchanges) continue;  // two exchanges may meet in one conductor
        ++tried;
        INFO(one.text << " and " << other.text);
        const Diagnosis told =
            diagnose(there.design, there.wiring, measured(there.bench, there.plan, partition));
        explained += told.explained ? 1 : 0;
        named += std::ranges::any_of(told.causes, [&](const Cause& cause) {
            const auto tells = [&](const Fault& fault) {
                return cause.text.find(fault.text) != std::string::npos;
            };
            return tells(one) && tells(other);
        });
        CHECK(told.explained);
        CHECK(told.causes.front().contradicts.empty());
    }
    std::cout << folder << ": " << explained << " of " << tried << " double faults explained, in "
              << named << " both named in one cause\n";
    CHECK(tried >= 20);
}

// Expected: the two ways in which two signals can fail to arrive; one fault before two.
TEST_CASE("two open signals may be one exchange or two opens, and a reading tells which") {
    const Planned there(std::string("lid-link"));
    const auto closed = [&](const char* from, const char* to, bool is_closed) {
        MeterReading reading;
        reading.from = there.point(from);
        reading.to = there.point(to);
        reading.closed = is_closed;
        return reading;
    };
    MeterReadings readings;
    readings.rows = {closed("logger.video.D2+", "screen.video.1", false),
                     closed("logger.video.CEC", "screen.video.13", false),
                     closed("logger.video.4", "screen.video.4", true)};
    const Diagnosis first = diagnose(there.design, there.wiring, readings);
    REQUIRE(first.causes.size() == 2);
    CHECK(first.causes[0].cause == "conductors-exchanged");
    CHECK(first.causes[0].faults == 1);
    CHECK(first.causes[1].faults == 2);
    REQUIRE(first.next.size() == 1);
    readings.rows.push_back(closed("base.plug.1", "lid.plug.13", true));
    const Diagnosis exchanged = diagnose(there.design, there.wiring, readings);
    REQUIRE(exchanged.causes.size() == 1);
    CHECK(exchanged.causes[0].cause == "conductors-exchanged");
    readings.rows.back().closed = false;
    const Diagnosis opened = diagnose(there.design, there.wiring, readings);
    REQUIRE_FALSE(opened.causes.empty());
    CHECK(std::ranges::all_of(opened.causes, [](const Cause& cause) { return cause.faults == 2; }));
}

// Expected: ceil(log2 k), the number of yes-or-no answers that tell k things apart (closed form).
TEST_CASE("telling k outcomes apart takes the binary logarithm of readings") {
    CHECK(least_readings_to_tell(1) == 0);
    CHECK(least_readings_to_tell(2) == 1);
    CHECK(least_readings_to_tell(5) == 3);
    CHECK(least_readings_to_tell(8) == 3);
}

}  // namespace pinfold
