// The meter plan: the fewest readings that prove an assembly, in the order they are best taken.
#pragma once

#include <string>
#include <vector>

#include "bringup/bench.hpp"

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

/// Faults the meter cannot tell from each other, or not see, and why.
struct Limitation {
    std::size_t places = 0;
    std::string example;
    std::string why;
};

struct ProbePlan {
    std::vector<Probe> probes;
    std::size_t faults = 0;  ///< single faults that readings can show
    std::size_t told_apart =
        0;  ///< kinds of outcome the plan's readings tell apart, sound included
    std::size_t most_told_apart = 0;  ///< the same for all readings between all sites
    std::size_t least_closed = 0;     ///< no fewer readings that beep can do
    std::size_t least_open = 0;       ///< nor fewer that must not
    std::vector<Limitation> unseen, alike;
    bool arrives = true;  ///< every promise is kept by the wiring
};

/// The plan for a design as it is wired.
///
/// One reading for every promised signal, and the fewest besides that show every plausible single
/// fault. The lower bounds hold for any set of two-probe readings: a broken joint at one contact
/// shows only in a reading there, and a reading has two ends; a bridge between two nets shows only
/// between those two.
ProbePlan probe_plan(const Bench& bench);

/// Readings needed at least to tell `outcomes` apart: the binary logarithm, rounded up.
std::size_t least_readings_to_tell(std::size_t outcomes);

}  // namespace pinfold
