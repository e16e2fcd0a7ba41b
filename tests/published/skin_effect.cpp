// The skin effect in shapes whose inner impedance is known exactly (handbooks of electromagnetics,
// such as S. Ramo, J. R. Whinnery and T. Van Duzer, Fields and Waves in Communication Electronics,
// 3.16 and 3.17, from memory).
#include <catch2/catch.hpp>
#include <cmath>
#include <complex>
#include <numbers>

#include "physics/constants.hpp"
#include "physics/metal_loss.hpp"

namespace pinfold {
namespace {

using Complex = std::complex<double>;

/// A conductor of 1 ohm/m whose skin has 1 ohm/m at 1 GHz.
Complex ours(double frequency) {
    constexpr double resistivity = 1e-6 / 58.0;
    PerMetre line;
    line.resistance_dc = Eigen::MatrixXd::Identity(1, 1);
    const double surface = std::sqrt(std::numbers::pi * 1e9 * vacuum_permeability * resistivity);
    line.recession = Eigen::MatrixXd::Constant(1, 1, vacuum_permeability / surface);
    return MetalLoss(line).series(Hertz(frequency))(0, 0);
}

/// Of a round wire, relative to direct current: k a J0(k a) / (2 J1(k a)), k = (1 - j) / depth, by
/// the power series; the radius is twice the depth where the skin alone has as much.
Complex of_wire(double radius_in_depths) {
    const Complex x = Complex(1.0, -1.0) * radius_in_depths;
    Complex j0 = 0.0, j1 = 0.0, term = 1.0;
    for (int n = 0; n < 200; ++n) {
        j0 += term;
        j1 += term * 0.5 * x / (n + 1.0);
        term *= -0.25 * x * x / ((n + 1.0) * (n + 1.0));
    }
    return 0.5 * x * j0 / j1;
}

}  // namespace

TEST_CASE("the skin of a round wire is as the exact solution has it", "[published]") {
    for (const double radius_in_depths : {0.1, 0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 10.0}) {
        CAPTURE(radius_in_depths);
        const Complex exact = of_wire(radius_in_depths);
        // The skin alone: radius over twice the depth.
        const double skin = 0.5 * radius_in_depths;
        const Complex z = ours(1e9 * skin * skin);
        CHECK(std::abs(z - exact) < 0.07 * std::abs(exact));
        CHECK(z.real() == Approx(exact.real()).epsilon(0.07));
    }
}

// x coth(x), x = (1 + j) half the thickness over the depth.
TEST_CASE("the skin of a wide sheet is never more than a fifth from the exact one", "[published]") {
    for (const double half_in_depths : {0.05, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 10.0}) {
        CAPTURE(half_in_depths);
        const Complex x = Complex(1.0, 1.0) * half_in_depths;
        const Complex exact = x / std::tanh(x);
        const Complex z = ours(1e9 * half_in_depths * half_in_depths);
        CHECK(std::abs(z - exact) < 0.2 * std::abs(exact));
    }
}

}  // namespace pinfold
