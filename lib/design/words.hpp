// The words of design files and options, and what each means.
#pragma once

#include "base/fields.hpp"
#include "design/lay.hpp"

namespace pinfold {

const Words<Copper>& copper_words();
const Words<bool>& socket_words();  ///< whether one socket is turned
const Words<Turn>& turn_words();
const Words<Facing>& facing_words();
const Words<Facing>& level_words();  ///< of a board that lies flat
const Words<ContactSide>& row_words();

}  // namespace pinfold
