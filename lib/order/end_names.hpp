// Names at the end of a ribbon: what the board there calls the pieces of the wiring.
#pragma once

#include <map>
#include <string>

#include "design/wiring.hpp"

namespace pinfold {

/// What the board at one end calls each piece of the wiring that reaches it.
using EndNames = std::map<std::uint32_t, std::string>;

/// The names a list at `mouth` may use: a signal's own where one other port has any, `port.contact`
/// where several have; `GND` for every ground.
EndNames names_at(const Design& design, const Wiring& wiring, PortRef mouth);

}  // namespace pinfold
