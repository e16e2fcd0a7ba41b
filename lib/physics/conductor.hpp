// Conductors: resistance of copper and delay along a trace.
#pragma once

#include "base/units.hpp"

namespace pinfold {

/// Resistance of a copper conductor to direct current.
///
/// Annealed copper, 1/58 ohm mm2/m at 20 degC, rising by 0.393 % of that for each kelvin.
/// Source: IEC 60028 (1925); tests/published/iec_60028.cpp. The straight rise is good from -20 to
/// 120 degC, from memory. The section must not be nothing.
Ohms dc_resistance(SquareMillimetres section, Millimetres length, Celsius temperature);

/// Time a wave takes along a line of an effective permittivity (1 in air).
///
/// Source: the speed of light in vacuum, 0.299792458 mm/ps (SI definition), divided by the square
/// root of the permittivity.
Picoseconds delay_along(Millimetres length, double permittivity);

}  // namespace pinfold
