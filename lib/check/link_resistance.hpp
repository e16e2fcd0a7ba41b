// Resistance of the links of a wiring: conductors, contacts and leads.
#pragma once

#include "design/wiring.hpp"

namespace pinfold {

/// Conductors and leads by their section and length, at this temperature.
constexpr Celsius warm{60.0};

/// What a contact has where neither the design nor a pin map says; common practice.
constexpr Ohms usual_contact{0.05};

/// The metal of one conductor of a ribbon.
SquareMillimetres copper_section_of(const Design& design, const Ribbon& ribbon);

/// The resistance of a join, seat, conductor or lead, held between a microohm and a megohm so that
/// networks of them can be solved. Copper of boards has none but where its board gives the width
/// and the length of a trace: a port's end of it then has half of the trace's.
Ohms resistance_of(const Design& design, const Wiring& wiring, const Link& link);

}  // namespace pinfold
