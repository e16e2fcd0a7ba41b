// Diagnosis: the causes that explain measured readings, simplest first, and what to measure next.
#pragma once

#include <string>
#include <vector>

#include "bringup/probe_plan.hpp"
#include "bringup/reading.hpp"

namespace pinfold {

/// What may be the matter: nothing, one fault or two.
struct Cause {
    std::string cause;  ///< `no-fault`, a fault's name, or two of them with ` + ` between
    std::string place;
    std::string text;
    std::string remedy;
    std::size_t faults = 0;
    std::vector<int> explains;     ///< rows whose reading it predicts
    std::vector<int> contradicts;  ///< rows whose reading it does not
};

/// A reading to take, and the causes it would tell apart.
struct NextReading {
    std::string from, to;
    std::vector<std::string> tells_apart;
    std::vector<std::size_t> if_closed;  ///< causes left then, counted from 1
    std::vector<std::size_t> if_open;
};

/// Readings that cannot all be true of one assembly that holds still.
struct Contradiction {
    std::vector<int> rows;
    std::string text;
};

struct Diagnosis {
    bool explained = false;  ///< some cause contradicts no reading
    bool sound = false;      ///< and it is that nothing is wrong
    std::vector<Cause> causes;
    std::size_t more_causes = 0;  ///< that explain the readings as well and are not listed
    std::vector<NextReading> next;
    std::vector<Contradiction> contradictions;
    std::vector<int> unexpected;  ///< rows whose reading a sound assembly would not give
    std::size_t measured = 0, blank = 0;
};

/// Explains readings of the assembly that `design` describes.
///
/// No fault if that explains all; else all single faults that do, bridges between the very points
/// measured among them; else pairs of faults, of which so many are tried as a moment allows; else
/// the single faults that contradict fewest readings, and `explained` is false.
Diagnosis diagnose(const Design& design, const Wiring& wiring, const MeterReadings& readings);

}  // namespace pinfold
