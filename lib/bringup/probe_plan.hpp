// The meter plan: the fewest readings that prove an assembly, in the order they are best taken.
#pragma once

#include <string>
#include <vector>

#include "bringup/bench.hpp"
#include "bringup/device_probe.hpp"
#include "bringup/limitation.hpp"
#include "bringup/plan_bounds.hpp"

namespace pinfold {

/// Why a reading is taken, in the order the sheet asks for them.
enum class ReadingStage {
    supply,     ///< before anything: a supply against ground and its neighbours
    ribbon,     ///< how the ribbons lie: the fewest readings that show one turned or shifted
    signal,     ///< every promised signal arrives, every joint holds
    neighbour,  ///< nothing is bridged
    further,    ///< asked for by readings that were not as expected
};

/// One reading: two sites, and whether they should be joined.
struct Probe {
    std::size_t number = 0;  ///< the same on every sheet of one design
    std::size_t from = 0, to = 0;
    bool closed = true;
    ReadingStage stage = ReadingStage::signal;
    std::string why;
    std::size_t shows = 0;  ///< faults that no other reading of the plan shows
};

struct ProbePlan {
    std::vector<Probe> probes;         ///< of the bare assembly
    std::size_t readings = 0;          ///< of the bare assembly, those already taken among them
    std::vector<DeviceProbe> devices;  ///< for after these, each with one device plugged in
    std::size_t faults = 0;            ///< single faults that readings can show
    std::size_t told_apart =
        0;  ///< kinds of outcome the plan's readings tell apart, sound included
    std::size_t most_told_apart = 0;  ///< the same for all readings between all sites
    LeastReadings least;
    std::vector<Limitation> unseen, alike;
    bool arrives = true;  ///< every promise is kept by the wiring
};

/// Whether a reading comes out otherwise than on a sound assembly.
bool shows(const Bench& bench, const Probe& probe, std::size_t fault);

/// The plan for a design as it is wired.
///
/// One reading for every promised signal, and the fewest besides that show every plausible single
/// fault.
ProbePlan probe_plan(const Bench& bench);

}  // namespace pinfold
