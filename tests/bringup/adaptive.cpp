// Whole sessions at the bench: a fault planted, readings taken as they are asked for, to the end.
#include <catch2/catch.hpp>
#include <iostream>

#include "bringup/example.hpp"
#include "bringup/remaining.hpp"

namespace pinfold {
namespace {

/// Whether a fault is still among those that explain the readings.
bool is_suspected(Inquiry& inquiry, const Suspects& suspects, const Fault& fault) {
    return std::ranges::any_of(suspects.all, [&](const Suspect& suspect) {
        return suspect.second.empty() && std::ranges::any_of(suspect.faults, [&](std::size_t f) {
                   return inquiry.bench.faults[f].text == fault.text;
               });
    });
}

struct Session {
    std::size_t suspects = 0;  ///< when the fault first showed
    std::size_t readings = 0;  ///< taken after that
    bool is_kept = true;       ///< the fault was suspected to the end
    std::size_t left = 0;      ///< suspects at the end
};

MeterReading taken(const Planned& there, const Probe& probe, const Partition& truth) {
    return there.reading(static_cast<int>(probe.number), probe.from, probe.to,
                         truth[probe.from] == truth[probe.to]);
}

/// The sheet from the top until something is wrong, then always the first reading asked for.
Session session(const Planned& there, std::size_t fault) {
    const Partition& truth = there.bench.partitions[fault];
    MeterReadings readings;
    for (const Probe& probe : there.plan.probes) {
        readings.rows.push_back(taken(there, probe, truth));
        if (readings.rows.back().closed != probe.closed) break;
    }
    Session session;
    while (true) {
        Inquiry inquiry(there.design, there.wiring, readings);
        const Suspects suspects = suspects_in(inquiry);
        session.left = suspects.all.size();
        if (session.readings == 0) session.suspects = session.left;
        const bool is_kept = is_suspected(inquiry, suspects, there.bench.faults[fault]);
        session.is_kept = session.is_kept && is_kept && suspects.explained;
        const Diagnosis told = diagnose(there.design, there.wiring, readings);
        const ProbePlan next = remaining(there.bench, there.plan, readings, told);
        if (session.left < 2 || next.probes.empty()) return session;
        readings.rows.push_back(taken(there, next.probes.front(), truth));
        ++session.readings;
        if (session.readings > 40) return session;
    }
}

}  // namespace

// Expected: what was planted stays among the causes. Readings that each strike out one of k causes
// would be k - 1; ceil(log2 k) are the least that can do (both closed forms).
TEST_CASE("a session that measures what is asked for next ends with the planted fault") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Planned there(folder);
    std::size_t sessions = 0, readings = 0, least = 0, most = 0, told = 0, longest = 0;
    for (std::size_t f = 3; f < there.bench.faults.size(); f += 37) {
        const Fault& fault = there.bench.faults[f];
        if (fault.at_device || there.bench.partitions[f] == there.bench.sound()) continue;
        INFO(fault.text);
        const Session end = session(there, f);
        CHECK(end.is_kept);
        CHECK(end.readings <= 40);
        ++sessions;
        readings += end.readings;
        longest = std::max(longest, end.readings);
        least += least_readings_to_tell(end.suspects);
        most += end.suspects - 1;
        told += end.left == 1 ? 1 : 0;
    }
    std::cout << folder << ": " << sessions << " sessions, " << readings
              << " further readings (longest " << longest << ", sum of ceil(log2 k) " << least
              << ", of k - 1 " << most << "), " << told << " end with one cause\n";
    CHECK(sessions >= 10);
    CHECK(readings <= most);
}

}  // namespace pinfold
