// Bounds of a meter plan: how few readings can do, and how many outcomes they tell apart.
#pragma once

#include <vector>

#include "bringup/bench.hpp"

namespace pinfold {

struct LeastReadings {
    std::size_t closed = 0;  ///< no fewer readings that beep can do
    std::size_t open = 0;    ///< nor fewer that must not
};

/// Bounds for any set of two-probe readings that shows these faults and has one reading for each
/// of `promised` promises: a broken joint at one contact shows only in a reading there, and a
/// reading has two ends; a bridge between two nets shows only between those two.
LeastReadings least_readings(const Bench& bench, const std::vector<std::size_t>& faults,
                             std::size_t promised);

/// Readings needed at least to tell `outcomes` apart: the binary logarithm, rounded up.
std::size_t least_readings_to_tell(std::size_t outcomes);

}  // namespace pinfold
