// The cross-section of a ribbon, for the field solver.
#pragma once

#include <optional>

#include "design/design.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// The conductors of a ribbon side by side in their film, or its wires each in its insulation;
/// the ribbon's own thickness before that of its type; a shield is a plane. Nothing where the type
/// lacks a size.
std::optional<Section> section_of(const Design& design, const Ribbon& ribbon);

}  // namespace pinfold
