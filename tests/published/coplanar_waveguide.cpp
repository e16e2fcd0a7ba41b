// Coplanar waveguide on a board, and with a plane under it: elliptic integrals by conformal
// mapping.
//
// C. Veyres, V. Fouad Hanna, 1980, and G. Ghione, C. Naldi, 1983, as in K. C. Gupta, R. Garg,
// I. Bahl, P. Bhartia, Microstrip Lines and Slotlines, 2nd ed.; formulas as quoted in the technical
// papers of Qucs, 12.7 to 12.13. In air they are exact. On a board they are not: the field is taken
// to leave nothing through the slots. No error is stated; a per cent is allowed where the board is
// thicker than the centre and both slots, three over a plane nearer than that. A film as thin as a
// ribbon's makes them wrong by more, and is not tried.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "physics/constants.hpp"
#include "physics/sections.hpp"
#include "published/elliptic.hpp"

namespace pinfold {
namespace {

struct Waveguide {
    double centre, slot, height, er;

    /// How a length is seen in the mapped board, by one of the hyperbolic functions.
    template <class Function>
    double seen(const Function& function) const {
        const double turn = std::numbers::pi / (4.0 * height);
        return function(turn * centre) / function(turn * (centre + 2.0 * slot));
    }
    double above() const { return k_over_k_prime(centre / (centre + 2.0 * slot)); }

    double permittivity_open() const {
        const double k = seen([](double x) { return std::sinh(x); });
        return 1.0 + 0.5 * (er - 1.0) * k_over_k_prime(k) / above();
    }
    double impedance_open() const { return eta / (4.0 * std::sqrt(permittivity_open()) * above()); }
    /// With a plane under the board.
    double below() const {
        return k_over_k_prime(seen([](double x) { return std::tanh(x); }));
    }
    double permittivity_backed() const { return 1.0 + (er - 1.0) * below() / (above() + below()); }
    double impedance_backed() const {
        return eta / (2.0 * std::sqrt(permittivity_backed()) * (above() + below()));
    }
};

struct Solved {
    double permittivity, impedance;
};

/// Between grounds of 20 mm, on a board that ends with them.
Solved solved(const Waveguide& guide, bool backed) {
    const double side = 20.0;
    const double at = guide.centre / 2.0 + guide.slot + side / 2.0;
    Section section{
        .conductors = {strip(0, thin / 2, guide.centre, thin), strip(at, thin / 2, side, thin),
                       strip(-at, thin / 2, side, thin)},
        .dielectrics = {film(-at - side, at + side, -guide.height, 0, guide.er)}};
    if (backed) section.planes = {plane(-guide.height)};
    const PerMetre line = per_metre(solve_field(section, 0.002), {1, 2});
    const double c = line.capacitance(0, 0);
    const double vacuum = line.capacitance_vacuum(0, 0);
    return {c / vacuum, 1.0 / (light_speed * std::sqrt(c * vacuum))};
}

}  // namespace

TEST_CASE("coplanar waveguide on a board thicker than itself", "[published]") {
    const Waveguide guide = GENERATE(Waveguide{0.5, 0.2, 1.6, 4.4}, Waveguide{1.0, 0.3, 1.6, 4.4});
    CAPTURE(guide.centre);
    const Solved found = solved(guide, false);
    CHECK(found.permittivity == Approx(guide.permittivity_open()).epsilon(1e-2));
    CHECK(found.impedance == Approx(guide.impedance_open()).epsilon(1e-2));
}

TEST_CASE("coplanar waveguide with a plane under its board", "[published]") {
    const Waveguide guide = GENERATE(Waveguide{0.3, 0.15, 0.2, 4.4}, Waveguide{0.5, 0.2, 1.6, 4.4},
                                     Waveguide{0.2, 0.15, 0.1, 3.4});
    CAPTURE(guide.centre);
    const double allowed = guide.height > guide.centre + 2.0 * guide.slot ? 1e-2 : 3e-2;
    const Solved found = solved(guide, true);
    CHECK(found.permittivity == Approx(guide.permittivity_backed()).epsilon(allowed));
    CHECK(found.impedance == Approx(guide.impedance_backed()).epsilon(allowed));
}

}  // namespace pinfold
