#include "physics/scattering.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/lines_by_hand.hpp"

namespace pinfold {
namespace {

using Complex = std::complex<double>;
using Eigen::MatrixXcd;

MatrixXcd differential(const MatrixXcd& s) {
    return mixed_mode(s, {{0, 1}, {2, 3}}).topLeftCorner(2, 2);
}

/// Board, contact, ribbon, contact, board, each a pair without coupling.
MatrixXcd five_in_a_row(double ohm, double ribbon_ns, double frequency) {
    const Hertz f(frequency);
    const MatrixXcd board = scattering(matched_pair(100.0, 0.2), f);
    const MatrixXcd contact = scattering(matched_pair(130.0, 0.015), f);
    const MatrixXcd ribbon = scattering(matched_pair(ohm, ribbon_ns), f);
    return differential(cascade(cascade(cascade(board, contact), cascade(ribbon, contact)), board));
}

}  // namespace

// Products of the chain matrices of the five lines, [cos, j Z sin; j sin / Z, cos], 100 ohm
// throughout: |S11|, loss in dB, angle of S21.
TEST_CASE("boards, contacts and a ribbon in a row match the product of chain matrices") {
    struct Row {
        double ohm, ribbon_ns, frequency, reflected, loss_db;
    };
    const Row row = GENERATE(values<Row>({
        {110.335, .5057, 1e9, .052978, .01221},
        {110.335, .5057, 1.7e9, .012300, .00066},
        {110.335, .5057, 3e9, .145877, .09342},
        {157.5, .5176, 1e9, .100261, .04388},
        {157.5, .5176, 1.7e9, .244001, .26658},
        {157.5, .5176, 3e9, .264111, .31402},
    }));
    CAPTURE(row.ohm, row.frequency);
    const MatrixXcd s = five_in_a_row(row.ohm, row.ribbon_ns, row.frequency);
    CHECK(std::abs(s(0, 0)) == Approx(row.reflected).margin(6e-7));
    CHECK(-decibels(std::abs(s(1, 0))).value() == Approx(row.loss_db).margin(6e-6));
}

TEST_CASE("the angle through a row of lines matches the product of chain matrices") {
    const auto degrees = [](double frequency) {
        return std::arg(five_in_a_row(110.335, .5057, frequency)(1, 0)) * 180.0 / std::numbers::pi;
    };
    CHECK(degrees(1e9) == Approx(22.7773).margin(5e-4));
    CHECK(degrees(1.7e9) == Approx(147.0040).margin(5e-4));
    CHECK(degrees(3e9) == Approx(68.6121).margin(5e-4));
}

// Series Z in 100 ohm: S11 = Z / (Z + 200), S21 = 200 / (Z + 200); Z = 60 mohm + 1 nH at 3 GHz.
TEST_CASE("a contact in series reflects by the voltage divider") {
    // Half of it in each half of the pair, at one end of a line of no length.
    EndedLine line = matched_pair(100.0, 0.0, {Ohms(0.03), Henries(0.5e-9)});
    line.b = all_ports(2);
    const MatrixXcd s = differential(scattering(line, Hertz(3e9)));
    CHECK(std::abs(s(0, 0)) == Approx(.093805).margin(6e-7));
    CHECK(std::abs(s(1, 0)) == Approx(.995292).margin(6e-7));
}

// The closed form of a coupler whose ends are matched: Sdd11 = -near, Scc11 = near, both ways
// through alike, no conversion.
TEST_CASE("a coupler has the mixed modes of its closed form") {
    const PerMetre line = by_hand(
        two_by_two(254.1666666666667, 45.8333333333333, 45.8333333333333, 254.1666666666667),
        two_by_two(101.6666666666667, -18.3333333333333, -18.3333333333333, 101.6666666666667));
    const MatrixXcd s =
        mixed_mode(scattering(bare(line, 100.0 / 3.0), Hertz(1e9)), {{0, 1}, {2, 3}});
    const Complex near{.136354400, .0774336878}, through{.487705751, -.858809992};
    CHECK(std::abs(s(0, 0) + near) < 1e-9);
    CHECK(std::abs(s(2, 2) - near) < 1e-9);
    CHECK(std::abs(s(1, 0) - through) < 1e-9);
    CHECK(std::abs(s(3, 2) - through) < 1e-9);
    CHECK(std::abs(s(3, 0)) < 1e-12);
}

// S_dd21 falls by cos(pi f dt), S_cd21 is sin(pi f dt), for halves dt apart without coupling.
TEST_CASE("halves of unequal length turn differential into common by the sine of their skew") {
    struct Row {
        double skew_ps, frequency, loss_db, conversion_db;
    };
    const Row row = GENERATE(values<Row>({
        {44.1, 1.7e9, .243173, -12.6397},
        {15.0, 2.5e9, .060416, -18.5965},
    }));
    CAPTURE(row.skew_ps);
    const PerMetre half = by_hand(Eigen::MatrixXd::Constant(1, 1, 250.0),
                                  Eigen::MatrixXd::Constant(1, 1, 100.0));  // 50 ohm, 2e8 m/s
    const Hertz f(row.frequency);
    const MatrixXcd s = mixed_mode(beside(scattering(bare(half, 60.0 + 0.2 * row.skew_ps), f),
                                          scattering(bare(half, 60.0), f)),
                                   {{0, 1}, {2, 3}});
    CHECK(-decibels(std::abs(s(1, 0))).value() == Approx(row.loss_db).margin(6e-7));
    CHECK(decibels(std::abs(s(3, 0))).value() == Approx(row.conversion_db).margin(6e-5));
}

TEST_CASE("networks beside each other keep to their own ports") {
    MatrixXcd one(2, 2), other(2, 2), both(4, 4);
    one << 1, 2, 3, 4;
    other << 5, 6, 7, 8;
    both << 1, 0, 2, 0, 0, 5, 0, 6, 3, 0, 4, 0, 0, 7, 0, 8;
    CHECK(beside(one, other) == both);
}

TEST_CASE("power made and one-way traffic are measured") {
    MatrixXcd s(2, 2);
    s << 0.0, 1.5, 0.5, 0.0;
    CHECK(passivity_excess(s) == Approx(0.5));
    CHECK(reciprocity_error(s) == Approx(1.0));
}

}  // namespace pinfold
