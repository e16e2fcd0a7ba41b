// The currents, voltages and budget of a design as JSON.
#pragma once

#include <string>

#include "check/power.hpp"

namespace pinfold {

/// A document of schema `pinfold-power/1`; null where nobody states a value or nothing settles.
std::string power_json(const Design& design, const Wiring& wiring, const Power& power);

}  // namespace pinfold
