// Reading the joins of a design: plugs in receptacles, ribbon ends in receptacles.
#pragma once

#include "design/name_index.hpp"

namespace pinfold {

/// Reads `base.tail + strap.a` and the map form into the design's joins and seats.
void read_joins(const std::vector<Yaml>& items, const NameIndex& names, ReaderDesk& desk);

}  // namespace pinfold
