// Edges: how sharply charge gathers where four quarters of a place are filled differently.
#pragma once

#include <array>

#include "physics/field_pieces.hpp"

namespace pinfold::field {

/// The field near the point where the four quarters meet, in turn, goes as distance^(a-1); 1/a is
/// returned, 1 where nothing gathers. At most one quarter may be metal for it to.
double sharpness(const std::array<Filling, 4>& quarters);

}  // namespace pinfold::field
