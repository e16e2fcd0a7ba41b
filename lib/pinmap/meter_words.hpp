// Words for what a meter shows on a device: windows of ohms and of volts.
#pragma once

#include <string>

#include "pinmap/interface.hpp"

namespace pinfold {

/// `1.5 to 2 kohm`, `0.3 to 0.7 V, diode`.
std::string in_words(MeterKind kind, double least, double most);
std::string in_words(const MeterWindow& window);

}  // namespace pinfold
