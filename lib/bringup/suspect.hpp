// Suspects: the single faults, and pairs of them, that explain readings.
#pragma once

#include <vector>

#include "bringup/inquiry.hpp"

namespace pinfold {

/// One fault or two, and what they make of the assembly; neither: a sound assembly.
struct Suspect {
    std::vector<std::size_t> faults;  ///< alike ones, if it is one fault
    std::vector<std::size_t> second;
    Partition partition;
};

struct Suspects {
    std::vector<Suspect> all;  ///< simplest first, then likeliest first
    bool explained = false;    ///< each of them gives every reading
};

/// Who explains the readings: the sound assembly; else every single fault that does, and after them
/// pairs of opens and bridges neither of which does alone; else pairs of any faults, of which so
/// many are tried as a moment allows; else the single faults that contradict fewest readings.
///
/// Bridges between the very points measured closed are added to the faults of the inquiry.
Suspects suspects_in(Inquiry& inquiry);

}  // namespace pinfold
