// The currents, voltages and budget of a design as text.
#pragma once

#include <string>

#include "check/power.hpp"

namespace pinfold {

/// Findings first, then tables of feeds, loaded links and the budget, then cautions.
std::string power_text(const Design& design, const Wiring& wiring, const Power& power);

}  // namespace pinfold
