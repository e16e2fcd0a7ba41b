#include "physics/conductor.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace pinfold {

TEST_CASE("resistance grows with the length and falls with the section") {
    const double one = dc_resistance(SquareMillimetres(0.01), 100.0_mm, 20.0_degC).value();
    CHECK(dc_resistance(SquareMillimetres(0.01), 300.0_mm, 20.0_degC).value() == Approx(3 * one));
    CHECK(dc_resistance(SquareMillimetres(0.02), 100.0_mm, 20.0_degC).value() == Approx(one / 2));
    CHECK(dc_resistance(SquareMillimetres(0.01), 0.0_mm, 20.0_degC).value() == 0.0);
}

// rho / (w t) with rho = 1.7241e-8 ohm m (IACS), computed outside to the printed digits; the warm
// columns with 0.00393 for each kelvin.
TEST_CASE("a strip of copper has the resistance of rho over its section") {
    struct Strip {
        double width_mm, thickness_mm, at_20, at_60, at_85;
    };
    const Strip strip = GENERATE(values<Strip>({
        {0.30, 0.035, 1.64200, 1.90012, 2.06145},
        {0.35, 0.050, 0.985200, 1.14007, 1.23687},
        {0.70, 0.050, 0.492600, 0.570037, 0.618435},
        {0.60, 0.100, 0.287350, 0.332521, 0.360754},
        {0.65, 0.050, 0.530492, 0.613886, 0.666007},
    }));
    CAPTURE(strip.width_mm, strip.thickness_mm);
    const SquareMillimetres section(strip.width_mm * strip.thickness_mm);
    const auto ohm = [&](Celsius at) { return dc_resistance(section, 1000.0_mm, at).value(); };
    // 1/58 against 1.7241e-8: 0.002 % apart.
    CHECK(ohm(20.0_degC) == Approx(strip.at_20).epsilon(3e-5));
    CHECK(ohm(60.0_degC) == Approx(strip.at_60).epsilon(3e-5));
    CHECK(ohm(85.0_degC) == Approx(strip.at_85).epsilon(3e-5));
}

// The same, printed to three digits for the pitches ribbons are sold in.
TEST_CASE("the conductors of usual ribbons have the resistance of rho over their section") {
    struct Strip {
        double width_mm, thickness_mm, ohm_per_m, half_digit;
    };
    const Strip strip = GENERATE(values<Strip>({
        {0.18, 0.035, 2.74, 0.005},
        {0.15, 0.012, 9.58, 0.005},
        {0.30, 0.035, 1.64, 0.005},
        {0.30, 0.050, 1.15, 0.005},
        {0.30, 0.100, 0.575, 0.0005},
        {0.50, 0.035, 0.985, 0.0005},
        {0.50, 0.050, 0.690, 0.0005},
        {0.70, 0.035, 0.704, 0.0005},
        {0.70, 0.050, 0.493, 0.0005},
        {0.70, 0.100, 0.246, 0.0005},
        {0.80, 0.100, 0.216, 0.0005},
        {1.57, 0.100, 0.110, 0.0005},
    }));
    CAPTURE(strip.width_mm, strip.thickness_mm);
    const double ohm =
        dc_resistance(SquareMillimetres(strip.width_mm * strip.thickness_mm), 1000.0_mm, 20.0_degC)
            .value();
    CHECK(ohm == Approx(strip.ohm_per_m).margin(strip.half_digit).epsilon(0));
}

// Speed of light in vacuum, 299 792 458 m/s, SI definition.
TEST_CASE("a wave takes the time of light, slowed by the root of the permittivity") {
    CHECK(delay_along(Millimetres(299.792458), 1.0).value() == Approx(1000.0).epsilon(1e-12));
    CHECK(delay_along(Millimetres(299.792458), 4.0).value() == Approx(2000.0).epsilon(1e-12));
    CHECK(delay_along(10.0_mm, 3.2).value() ==
          Approx(10.0 * std::sqrt(3.2) / 0.299792458).epsilon(1e-12));
    CHECK(delay_along(0.0_mm, 3.2).value() == 0.0);
}

}  // namespace pinfold
