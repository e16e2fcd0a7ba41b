// Where contacts are: how a person with a probe in hand finds them on a port or a ribbon.
#pragma once

#include <string>

#include "design/design.hpp"

namespace pinfold {

/// `base.tail, J2, 20 contacts, first is 1 on the left, looking into the mouth ...`; of a connector
/// its rows as they are seen from its mating face, if its pin map has them. One line of text.
std::string where_of(const Design& design, PortRef port);

/// Where the conductors of a ribbon's bare end are counted from.
std::string where_of_end(const Design& design, std::size_t ribbon, End end);

}  // namespace pinfold
