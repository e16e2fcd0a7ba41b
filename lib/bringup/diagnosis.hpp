// Diagnosis: the causes that explain measured readings, simplest first, and what to measure next.
#pragma once

#include <string>
#include <vector>

#include "bringup/contradiction.hpp"
#include "bringup/next_reading.hpp"

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
/// Simplest causes first; `suspects_in` says who is suspected and in what order. Without readings
/// nothing is sound and nothing explained; there is only what to measure.
Diagnosis diagnose(const Design& design, const Wiring& wiring, const MeterReadings& readings);

}  // namespace pinfold
