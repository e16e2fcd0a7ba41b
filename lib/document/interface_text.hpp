// One interface for the terminal: its signals, pairs, limits and supplies.
#pragma once

#include <string>

#include "pinmap/interface.hpp"

namespace pinfold {

/// One interface: every signal, what crosses between the ends, the limits per rate and the supply
/// windows with their sources, and what rests on memory.
std::string interface_text(const Interface& interface);

}  // namespace pinfold
