#include "exchange/touchstone.hpp"

#include <catch2/catch.hpp>

#include "exchange/touchstone_reader.hpp"
#include "physics/lines_by_hand.hpp"

namespace pinfold {
namespace {

using Eigen::Index;
using Eigen::MatrixXcd;

MatrixXcd matrix_of(const std::vector<std::complex<double>>& rows, Index ports) {
    return Eigen::Map<const Eigen::Matrix<std::complex<double>, -1, -1, Eigen::RowMajor>>(
        rows.data(), ports, ports);
}

/// So many ports over three frequencies; no entry is another one's mirror.
Sweep numbered(Index ports) {
    Sweep sweep{Hertz(25e6), {}};
    for (int k = 0; k < 3; ++k) {
        MatrixXcd s(ports, ports);
        for (Index row = 0; row < ports; ++row) {
            for (Index column = 0; column < ports; ++column) {
                s(row, column) = {0.1 * static_cast<double>(row + 1) + k,
                                  -0.01 * static_cast<double>(column + 1) / 3.0};
            }
        }
        sweep.points.push_back(s);
    }
    return sweep;
}

std::vector<std::string> names(Index count) {
    return std::vector<std::string>(static_cast<std::size_t>(count), "x");
}

}  // namespace

// The two-port order 11 21 12 22 is that of the specification (version 1, two-port data).
TEST_CASE("two ports stand in one line in the order 11 21 12 22") {
    MatrixXcd s(2, 2);
    s << 0.125, std::complex<double>(0.25, -1.0), 0.5, 0.75;
    const std::string text = write_touchstone({Hertz(1e9), {s}}, {"in", "out"}, {"by hand"});
    CHECK(text ==
          "! by hand\n! Port 1: in\n! Port 2: out\n# Hz S RI R 50\n"
          "0 1.250000000e-01 0.000000000e+00 5.000000000e-01 0.000000000e+00"
          " 2.500000000e-01 -1.000000000e+00 7.500000000e-01 0.000000000e+00\n");
}

TEST_CASE("what was written is read back to ten digits, whatever the number of ports") {
    const Index ports = GENERATE(1, 2, 3, 4, 5, 8, 9, 16);
    CAPTURE(ports);
    const Sweep sweep = numbered(ports);
    const TouchstoneFile file =
        read_touchstone(write_touchstone(sweep, names(ports), {}), static_cast<std::size_t>(ports));
    REQUIRE(file.points.size() == 3);
    CHECK(file.reference == 50.0);
    CHECK(file.hertz[2] == 50e6);
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK((matrix_of(file.points[k], ports) - sweep.points[k]).cwiseAbs().maxCoeff() < 1e-9);
    }
}

TEST_CASE("a file of coupled lines is reciprocal and makes no power when read back") {
    PerMetre line = by_hand(two_by_two(300, 30, 30, 300), two_by_two(120, -6, -6, 120));
    line.resistance_dc = two_by_two(1.8, 0.2, 0.2, 1.8);
    Sweep sweep{Hertz(2e8), {}};
    for (std::size_t k = 0; k < 20; ++k) {
        sweep.points.push_back(scattering(bare(line, 120.0), sweep.frequency(k)));
    }
    const TouchstoneFile file = read_touchstone(write_touchstone(sweep, names(4), {}), 4);
    for (const auto& point : file.points) {
        CHECK(reciprocity_error(matrix_of(point, 4)) < 1e-9);
        CHECK(passivity_excess(matrix_of(point, 4)) < 1e-9);
    }
}

TEST_CASE("a name that would end its comment cannot") {
    const std::string text =
        write_touchstone({Hertz(1.0), {MatrixXcd::Zero(1, 1)}}, {"a\n# GHz Z"}, {"b\r\n9 9 9"});
    CHECK(text.starts_with("! b??9 9 9\n! Port 1: a?# GHz Z\n# Hz S RI R 50\n"));
}

// The reader itself, on a file by hand after the examples of the specification: options in another
// order and case, degrees, data that run on, a second option line that does not count.
TEST_CASE("the reader of the tests follows the specification") {
    const TouchstoneFile file = read_touchstone(
        "! four ports\n# r 75 ma s mhz\n# GHz S RI R 50\n"
        "5 0.5 90 0.4 0 0 0 0 0 ! row 1\n 0 0 0 0 0 0 0 0\n 0 0 0 0 0 0 0 0\n 0 0 0 0 0 0 1 180\n",
        4);
    CHECK(file.reference == 75.0);
    CHECK(file.hertz[0] == 5e6);
    CHECK(std::abs(file.points[0][0] - std::complex<double>(0.0, 0.5)) < 1e-12);
    CHECK(std::abs(file.points[0][15] + 1.0) < 1e-12);
}

}  // namespace pinfold
