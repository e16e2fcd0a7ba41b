#include "physics/film_rise.hpp"

#include <cassert>

#include "physics/conductor.hpp"

namespace pinfold {

FilmRise film_rise(Amperes current, SquareMillimetres section, Millimetres pitch, Celsius air) {
    assert(pitch.value() > 0.0);
    constexpr double w_per_m2_k = 10.0;
    constexpr Millimetres metre(1000.0);
    const double ohm_per_m = dc_resistance(section, metre, air).value();
    const double one_warmer = dc_resistance(section, metre, air + Celsius(1.0)).value();
    const double growth = one_warmer / ohm_per_m - 1.0;  // for each kelvin
    const double w_per_m = current.value() * current.value() * ohm_per_m;
    const double first = w_per_m / (2.0 * w_per_m2_k * pitch.value() / 1000.0);
    if (growth * first >= 1.0) return {false, {}};
    return {true, Kelvins(first / (1.0 - growth * first))};
}

}  // namespace pinfold
