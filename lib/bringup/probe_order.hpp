// The order of readings: the dangerous and likely faults first, then with short ways for the hands.
#pragma once

#include <vector>

#include "bringup/probe_plan.hpp"

namespace pinfold {

/// How far a hand moves from one site to another: places along a port, more to another port, most
/// to another board. Of no unit.
std::size_t distance(const Bench& bench, std::size_t one, std::size_t other);

/// The readings in the order they are taken, numbered from 1, stages settled.
///
/// Supplies first, against ground before neighbours; then the fewest readings that show every
/// ribbon turned, shifted or away; within a stage always the reading next to the last one.
/// `faults` are those the readings may show.
std::vector<Probe> in_order(const Bench& bench, std::vector<Probe> probes,
                            const std::vector<std::size_t>& faults);

}  // namespace pinfold
