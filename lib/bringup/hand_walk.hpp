// The hand's walk: how far the probes move from one reading to the next.
#pragma once

#include <span>

#include "bringup/probe_plan.hpp"

namespace pinfold {

/// How far a hand moves from one site to another: places along a port, more to another port, most
/// to another board. Of no unit.
std::size_t distance(const Bench& bench, std::size_t one, std::size_t other);

/// How far both hands move from one reading to another.
std::size_t distance(const Bench& bench, const Probe& one, const Probe& other);

/// Puts readings into an order in which the hands walk little, from where they are (`before`, if
/// anywhere): always the nearest next, or as they stand, each then with stretches turned round
/// while that saves a way; the shorter of the two.
void shorten_walk(const Bench& bench, std::span<Probe> probes, const Probe* before);

}  // namespace pinfold
