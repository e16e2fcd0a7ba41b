// Crowding: the square of the charge along a panel, from which the loss of the skin comes.
#pragma once

#include <span>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

/// The integral of charge density times charge density along a panel, for a unit on each two of its
/// points: `order` squared values, 1/mm.
void crowding_of(const Panel& panel, std::span<double> values);

}  // namespace pinfold::field
