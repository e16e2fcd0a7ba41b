// What a loose wire may carry, by its section and the wires loaded beside it.
#pragma once

#include "base/units.hpp"

namespace pinfold {

/// The current a lead may carry when `loaded` leads in one bundle do, itself among them.
///
/// MIL-STD-975: 1.3, 1.8, 2.5, 3.3, 4.5, 6.5, 9.2, 13, 19, 25, 33 A for one wire of AWG 30, 28 to
/// 10; (29 - N) / 28 of it in a bundle of N, half of it above 15; for insulation of 200 degC, here
/// halved for the 105 degC of common hook-up wire. All from memory; a public wire table has the
/// same for AWG 30 and 24 to 10, rounded. Between and beyond the gauges by powers of the section.
Amperes lead_rating(SquareMillimetres section, std::size_t loaded);

}  // namespace pinfold
