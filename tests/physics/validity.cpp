#include "physics/validity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "physics/constants.hpp"
#include "physics/sections.hpp"

namespace pinfold {

// Edge to edge, by the drawing: 19 pitches of 0.5 mm and a conductor's width.
TEST_CASE("an open ribbon's field spans it from edge to edge") {
    CHECK(field_span(filmed_ribbon(20, 3.0)).value() == Approx(19 * 0.5 + 0.30));
}

// By the drawing: 0.30 mm and twice the 0.20 mm of the lower face above the plane; between two
// planes the nearer one counts; a wire of 0.32 mm over one 0.64 mm below its middle.
TEST_CASE("over a plane the field spans a conductor and its height on either side") {
    Section section = filmed_ribbon(20, 3.0);
    section.planes = {plane(-0.2175)};
    CHECK(field_span(section).value() == Approx(0.30 + 2 * 0.20));
    section.planes.push_back(plane(0.1175));
    CHECK(field_span(section).value() == Approx(0.30 + 2 * 0.10));
    const Section wired{.conductors = {wire(0, 0.64, 0.32), wire(1.27, 0.64, 0.32)},
                        .planes = {plane(0)}};
    CHECK(field_span(wired).value() == Approx(0.32 + 2 * 0.48));
}

// Light goes 0.299792458 mm/ps: 9.8 mm are 0.15 of a wave at 4.589 GHz in air, and less in film.
TEST_CASE("the limit is where the span is 0.15 of the slowest wave") {
    const Section open = ribbon(20);
    const double in_air = quasi_static_limit(open, per_metre(solve_field(open), {0})).value();
    CHECK(in_air == Approx(0.15 * 299792458.0 / 9.8e-3).epsilon(1e-6));
    const Section filmed = filmed_ribbon(20, 3.0);
    const double in_film = quasi_static_limit(filmed, per_metre(solve_field(filmed), {0})).value();
    CHECK(in_film < in_air);
    CHECK(in_film > in_air / std::sqrt(3.0));
}

// W. J. Getsinger, Microstrip dispersion model, IEEE Transactions on Microwave Theory and
// Techniques 21(1), 1973, from memory: e(f) = er - (er - e0)/(1 + G (f/fp)^2), fp = Z0/(2 mu0 h),
// G = 0.6 + 0.009 Z0.
TEST_CASE("what dispersion adds over a plane is small up to the limit", "[published]") {
    const auto [width, height, er] =
        GENERATE(std::tuple(0.3, 0.1, 3.0), std::tuple(0.3, 0.2, 4.4), std::tuple(3.0, 1.0, 10.0),
                 std::tuple(0.2, 0.4, 3.0));
    CAPTURE(width, height, er);
    const Section strip_line{.conductors = {strip(0, height + 1e-4, width, 2e-4)},
                             .dielectrics = {film(-20, 20, 0, height, er)},
                             .planes = {plane(0)}};
    const PerMetre line = per_metre(solve_field(strip_line), {});
    const double z = std::sqrt(line.inductance(0, 0) / line.capacitance(0, 0));
    const double still = line.capacitance(0, 0) / line.capacitance_vacuum(0, 0);
    const auto slowed = [&](double f) {
        const double share = f * 2 * vacuum_permeability * height * 1e-3 / z;
        return std::sqrt((er - (er - still) / (1 + (0.6 + 0.009 * z) * share * share)) / still) - 1;
    };
    const double limit = quasi_static_limit(strip_line, line).value();
    CHECK(slowed(limit) < 0.025);
    CHECK(slowed(5 * limit) > 0.05);  // nor is it far too careful
}

// Half a wave in the dielectric between them: the lowest mode of parallel plates but the one
// that has no lower limit (handbooks).
TEST_CASE("between two planes the limit is below the next mode", "[published]") {
    Section section = filmed_ribbon(4, 3.0);
    section.planes = {plane(-0.2175), plane(0.2175)};
    const double limit = quasi_static_limit(section, per_metre(solve_field(section), {})).value();
    CHECK(limit < 299792458.0 / (2 * 0.435e-3 * std::sqrt(3.0)));
}

}  // namespace pinfold
