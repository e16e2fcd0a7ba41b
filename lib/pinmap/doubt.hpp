// Doubts: the parts of a pin map that rest on memory alone and want checking against the part.
#pragma once

#include <string>
#include <vector>

#include "pinmap/connector.hpp"
#include "pinmap/interface.hpp"
#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// The parts whose source says `from memory`, in words that go on after "from memory: ".
std::vector<std::string> doubts_of(const Connector& connector);
std::vector<std::string> doubts_of(const Interface& interface);
std::vector<std::string> doubts_of(const RibbonType& ribbon);
std::vector<std::string> doubts_of(const ReceptacleType& receptacle);

}  // namespace pinfold
