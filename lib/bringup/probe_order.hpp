// The order of readings: the dangerous and likely faults first, then with short ways for the hands.
#pragma once

#include <vector>

#include "bringup/probe_plan.hpp"

namespace pinfold {

/// The readings in the order they are taken, numbered from 1, stages settled.
///
/// Supplies first, against ground before neighbours; then the fewest readings that show every
/// ribbon turned, shifted or away; within a stage as the hands walk least.
/// `faults` are those the readings may show.
std::vector<Probe> in_order(const Bench& bench, std::vector<Probe> probes,
                            const std::vector<std::size_t>& faults);

}  // namespace pinfold
