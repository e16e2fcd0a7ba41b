#include "physics/eye.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

namespace pinfold {
namespace {

using Eigen::VectorXcd;
using Eigen::VectorXd;

VectorXd samples(std::initializer_list<double> values) {
    VectorXd vector(static_cast<Eigen::Index>(values.size()));
    std::copy(values.begin(), values.end(), vector.data());
    return vector;
}

VectorXcd single_pole(const Signalling& signalling, double bits_per_tau) {
    const auto points = static_cast<Eigen::Index>(signalling.points());
    VectorXcd transfer(points);
    for (Eigen::Index k = 0; k < points; ++k) {
        const double cycles_per_bit = static_cast<double>(k) / static_cast<double>(signalling.bits);
        transfer[k] =
            1.0 / std::complex<double>(1.0, 2 * std::numbers::pi * cycles_per_bit / bits_per_tau);
    }
    return transfer;
}

}  // namespace

// Peak distortion by hand: .80 - (.05 + .10 + .03 + .02) = .60 for levels 0 and 1.
TEST_CASE("the worst eye of a pulse is the bit less all the others") {
    const Eye eye = worst_eye(samples({.05, .80, .10, -.03, .02}), {}, 1);
    CHECK(eye.opening == Approx(.60));
    CHECK(eye.cursor == Approx(.80));
    CHECK(eye.other_bits == Approx(.20));
}

// The same less .04 + .06 + .02: .48.
TEST_CASE("a neighbour takes the sum of all it brings") {
    const Eye eye =
        worst_eye(samples({.05, .80, .10, -.03, .02}), {{samples({.04, -.06, .02})}}, 1);
    CHECK(eye.opening == Approx(.48));
    CHECK(eye.neighbours == Approx(.12));
}

TEST_CASE("a neighbour is taken at its own worst moment") {
    // Two samples a bit: the even ones sum to .03, the odd ones to .10.
    const Eye eye = worst_eye(samples({0, 0, 1, 1, 0, 0}), {{samples({.01, .04, .02, -.06})}}, 2);
    CHECK(eye.neighbours == Approx(.10));
}

// By hand: bits of two samples meet the first and third, or the second and fourth.
TEST_CASE("a slower neighbour's bits come as far apart as it sends them") {
    const VectorXd brings = samples({.01, .04, .02, -.06});
    CHECK(worst_eye(samples({0, 1, 0, 0}), {{brings, 1.0}}, 1).neighbours == Approx(.13));
    CHECK(worst_eye(samples({0, 1, 0, 0}), {{brings, 2.0}}, 1).neighbours == Approx(.10));
}

// A trapezoid through nothing arrives as itself: 1 in its middle, half at both edges.
TEST_CASE("a longer bit arrives longer", "[eye]") {
    const Signalling signalling{GigabitsPerSecond(1.0), 0.3, 64, 64, 30.0, 0.25};
    const VectorXcd through = VectorXcd::Ones(static_cast<Eigen::Index>(signalling.points()));
    const VectorXd pulse = pulse_response(through, signalling, 3.0);
    CHECK(pulse[0] == Approx(1.0).margin(0.01));
    CHECK(pulse[96] == Approx(0.5).margin(0.01));
    CHECK(pulse[160] == Approx(0.0).margin(0.01));
}

TEST_CASE("a bit that arrives whole is open for the whole bit") {
    VectorXd pulse = VectorXd::Zero(64);
    pulse.segment(24, 16).setOnes();
    const Eye eye = worst_eye(pulse, {}, 16);
    CHECK(eye.opening == Approx(1.0));
    CHECK(eye.width.value() == Approx(15.0 / 16.0));  // between the samples that see it
}

TEST_CASE("a closed eye has no width and says by how much it is closed") {
    const Eye eye = worst_eye(samples({.5, .5, .5, .5}), {}, 1);
    CHECK(eye.opening == Approx(-1.0));
    CHECK(eye.width.value() == 0.0);
}

// A single pole, x bits per time constant: the worst opening is 1 - 2 exp(-x). An edge of no length
// and a wide band, for the closed form has both.
TEST_CASE("a single pole closes the eye by twice its exponential") {
    const double x = GENERATE(values<double>({std::numbers::ln2, 1.0, 2.0, 3.0}));
    CAPTURE(x);
    const Signalling signalling{GigabitsPerSecond(1.0), 0.0, 64, 64, 30.0, 0.25};
    const VectorXd pulse = pulse_response(single_pole(signalling, x), signalling);
    CHECK(worst_eye(pulse, {}, signalling.samples).opening ==
          Approx(1.0 - 2.0 * std::exp(-x)).margin(0.01));
}

TEST_CASE("a pulse keeps its area and its place through a delay") {
    const Signalling signalling{GigabitsPerSecond(2.0)};
    const auto points = static_cast<Eigen::Index>(signalling.points());
    VectorXcd delay(points);
    for (Eigen::Index k = 0; k < points; ++k) {
        const double cycles = 5.0 * static_cast<double>(k) / static_cast<double>(signalling.bits);
        delay[k] = 0.5 * std::polar(1.0, -2 * std::numbers::pi * cycles);
    }
    const VectorXd pulse = pulse_response(delay, signalling);
    Eigen::Index at = 0;
    // The area of a bit of half height, in samples, and its middle after five bits.
    CHECK(pulse.sum() == Approx(0.5 * static_cast<double>(signalling.samples)));
    CHECK(pulse.maxCoeff(&at) == Approx(0.5).margin(0.02));
    CHECK(pulse[5 * 32] == Approx(0.5).margin(0.02));
    CHECK(pulse[5 * 32 + 16] == Approx(0.25).margin(0.01));  // half height at its edge
    CHECK(std::abs(pulse[0]) < 1e-2);
}

// Overshoot of the faded band: 7 %. The derivative of an edge of 1 V over tr is 1 V / tr: a
// coupling j w M gives M / tr.
TEST_CASE("an edge through a small inductive coupling peaks at the coupling over its rise") {
    const Signalling signalling{GigabitsPerSecond(1.0), 2.0, 64, 32, 8.0, 0.6};
    const auto points = static_cast<Eigen::Index>(signalling.points());
    VectorXcd coupling(points);
    for (Eigen::Index k = 0; k < points; ++k) {
        coupling[k] = {0.0, -0.02 * 2 * std::numbers::pi * static_cast<double>(k) / 64.0};
    }
    CHECK(std::abs(step_peak(coupling, signalling)) == Approx(0.02 / 2.0).epsilon(0.08));
}

}  // namespace pinfold
