// Contradictions: readings that cannot all be true of one assembly that holds still.
#pragma once

#include <string>
#include <vector>

#include "bringup/reading.hpp"

namespace pinfold {

struct Contradiction {
    std::vector<int> rows;
    Point from = 0, to = 0;  ///< the pair to be measured again
    std::string text;
    std::vector<std::size_t> with = {};  ///< devices plugged in
};

/// One pair measured both ways, or with a device plugged in to different values; or closed from A
/// to B to C, and open from A to C. Up to 20.
std::vector<Contradiction> contradictions_in(const MeterReadings& readings, const Design& design,
                                             const Wiring& wiring);

}  // namespace pinfold
