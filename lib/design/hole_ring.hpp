// Hole rings: how much copper a plated hole must leave round itself.
#pragma once

#include <optional>
#include <string>

#include "base/units.hpp"

namespace pinfold {

/// The least ring of copper round a plated hole on an outer layer: IPC-2221, minimum annular rings,
/// external supported, from memory.
constexpr Millimetres least_ring(0.05);

/// What is wrong with a hole in copper so wide; none if its ring is wide enough. `copper` names it,
/// such as "a via of 0.4 mm".
std::optional<std::string> ring_fault(Millimetres hole, Millimetres width,
                                      const std::string& copper);

/// The same of a via, with what would be right.
std::optional<std::string> via_fault(Millimetres hole, Millimetres via);

}  // namespace pinfold
