#include "physics/conductor.hpp"

#include <cassert>
#include <cmath>

namespace pinfold {

Ohms dc_resistance(SquareMillimetres section, Millimetres length, Celsius temperature) {
    assert(section.value() > 0.0);
    constexpr double ohm_mm2_per_m_at_20 = 1.0 / 58.0;
    constexpr double rise_per_kelvin = 0.00393;
    const double warmth = 1.0 + rise_per_kelvin * (temperature.value() - 20.0);
    return Ohms(ohm_mm2_per_m_at_20 * warmth * (length.value() / 1000.0) / section.value());
}

Picoseconds delay_along(Millimetres length, double permittivity) {
    constexpr double light_mm_per_ps = 0.299792458;
    return Picoseconds(length.value() * std::sqrt(permittivity) / light_mm_per_ps);
}

}  // namespace pinfold
