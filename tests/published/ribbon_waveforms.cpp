// C. R. Paul, Analysis of Multiconductor Transmission Lines, second edition (2007): terminal
// voltages of a three-wire ribbon cable (section 5.2.3) and of three lands on a board (9.3.2), as
// quoted in the test files of a public line solver; matrices and waveforms not seen in the book.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "physics/lines_by_hand.hpp"

namespace pinfold {
namespace {

/// Voltage at the near end of conductor 1 while a 1 V, 1 MHz trapezoid of 50 % duty, behind 50 ohm,
/// drives conductor 2: its Fourier series through the line. `rise` from 0 to 100 %, s.
double near_end_volts(const EndedLine& line, double rise, double time) {
    const double base = 1e6, period = 1.0 / base, width = 0.5 * period;  // between half heights
    const auto sinc = [](double x) {
        return x == 0.0 ? 1.0 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x);
    };
    double volts = 0.0;
    for (int k = 0; k * base < std::max(4.0 / rise, 2e9); ++k) {
        const double f = k * base;
        // V(near) = S / 2 x E: the wave that comes in is half the voltage behind 50 ohm.
        const std::complex<double> answer = 0.5 * scattering(line, Hertz(f))(0, 1);
        const double share = width / period * sinc(f * width) * sinc(f * rise);
        const double middle = 0.5 * (width + rise);  // the rise begins at 0
        const auto turn = std::polar(1.0, 2 * std::numbers::pi * f * (time - middle));
        volts += (k == 0 ? 1.0 : 2.0) * share * (answer * turn).real();
    }
    return volts;
}

EndedLine ribbon() {
    return bare(by_hand(two_by_two(748.50, 507.70, 507.70, 1015.4),
                        two_by_two(37.432, -18.716, -18.716, 24.982)),
                2000.0);
}

EndedLine lands() {
    return bare(by_hand(two_by_two(1105.15, 690.613, 690.613, 1381.23),
                        two_by_two(40.5985, -20.2992, -20.2992, 29.7378)),
                254.0);
}

}  // namespace

// Rise of 20 ns: a peak of 113 mV within 1 mV, as the quoted test file has it.
TEST_CASE("a three-wire ribbon couples its published peak", "[published]") {
    CHECK(near_end_volts(ribbon(), 20e-9, 20.2e-9) == Approx(0.113).margin(0.001));
}

// Rise of 1 ns: 120, 95, 55 and 32 mV within 10 mV.
TEST_CASE("a three-wire ribbon falls back in its published steps", "[published]") {
    CHECK(near_end_volts(ribbon(), 1e-9, 12.5e-9) == Approx(0.120).margin(0.01));
    CHECK(near_end_volts(ribbon(), 1e-9, 25.0e-9) == Approx(0.095).margin(0.01));
    CHECK(near_end_volts(ribbon(), 1e-9, 40.0e-9) == Approx(0.055).margin(0.01));
    CHECK(near_end_volts(ribbon(), 1e-9, 55.0e-9) == Approx(0.032).margin(0.01));
}

// Rise of 6.25 ns: 80, 62.5, 23 and 8 mV, read off a figure to 2 mV.
TEST_CASE("three lands on a board couple their published waveform", "[published]") {
    CHECK(near_end_volts(lands(), 6.25e-9, 5e-9) == Approx(0.080).margin(0.002));
    CHECK(near_end_volts(lands(), 6.25e-9, 10e-9) == Approx(0.0625).margin(0.002));
    CHECK(near_end_volts(lands(), 6.25e-9, 15e-9) == Approx(0.023).margin(0.002));
    CHECK(near_end_volts(lands(), 6.25e-9, 20e-9) == Approx(0.008).margin(0.002));
}

// Electrically short, 100 kHz: the same lands by the weak-coupling formula with
// Vne = w [R/2 Lm l / 100 + 25 x 50 Cm l / 100], the same book; the coupling is not quite weak.
TEST_CASE("a short line couples as its mutual inductance and capacitance say", "[published]") {
    const double w = 2 * std::numbers::pi * 1e5, metres = 0.254;
    const double weak = w * metres * (0.5 * 690.613e-9 / 100.0 + 25.0 * 50.0 * 20.2992e-12 / 100.0);
    CHECK(0.5 * std::abs(scattering(lands(), Hertz(1e5))(0, 1)) == Approx(weak).epsilon(1e-4));
}

}  // namespace pinfold
