#include "physics/line.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/lines_by_hand.hpp"

namespace pinfold {
namespace {

using Complex = std::complex<double>;
using Eigen::MatrixXcd;
using Eigen::MatrixXd;

/// Three conductors of a ribbon of four, the fourth the reference. Matrices: a three-wire ribbon
/// (Paul, Analysis of Multiconductor Transmission Lines, section 5.2.3) widened by one wire of our
/// own; only their being positive definite matters here.
PerMetre three_wires() {
    MatrixXd l(3, 3), c(3, 3);
    l << 748.5, 507.7, 460.0, 507.7, 1015.4, 700.0, 460.0, 700.0, 1180.0;
    c << 37.4, -18.7, -1.5, -18.7, 44.0, -17.0, -1.5, -17.0, 26.0;
    PerMetre line = by_hand(l, c);
    line.resistance_dc = 0.2 * (MatrixXd::Identity(3, 3) + MatrixXd::Ones(3, 3));
    line.capacitance_loss = 0.01 * line.capacitance;
    return line;
}

LineEnd grounded_second(ContactImpedance contact) {
    return {{Ending::port, Ending::tied, Ending::port}, contact, true};
}

/// The chain matrix of a line by the exponential of its telegrapher's matrix, an independent
/// method: Taylor's series of a slice, squared.
MatrixXcd chain_of(const Immittance& z, double metres) {
    const Eigen::Index n = z.series.rows();
    MatrixXcd m = MatrixXcd::Zero(2 * n, 2 * n);
    m.topRightCorner(n, n) = -metres * z.series;
    m.bottomLeftCorner(n, n) = -metres * z.shunt;
    // Voltages in units of 50 ohm times the currents, or the norm is all impedance.
    m.topRightCorner(n, n) /= 50.0;
    m.bottomLeftCorner(n, n) *= 50.0;
    const int halvings = 20;
    m *= std::ldexp(1.0, -halvings);
    MatrixXcd sum = MatrixXcd::Identity(2 * n, 2 * n) + m + 0.5 * m * m + m * m * m / 6.0;
    for (int i = 0; i < halvings; ++i) sum = (sum * sum).eval();
    sum.topRightCorner(n, n) *= 50.0;
    sum.bottomLeftCorner(n, n) /= 50.0;
    return sum;
}

/// Scattering of the ports of a line from its chain matrix and the laws at its ends, all unknowns
/// in one system: voltages and currents at both ends.
MatrixXcd scattering_by_chain(const EndedLine& line, Hertz frequency) {
    const Immittance z = immittance_at(line.per_metre, frequency);
    const Eigen::Index n = z.series.rows();
    const MatrixXcd chain = chain_of(z, 1e-3 * line.length.value());
    MatrixXcd system = MatrixXcd::Zero(4 * n, 4 * n);
    std::vector<Eigen::Index> ports;
    system.topLeftCorner(2 * n, 2 * n) = chain;                                // V, I at a
    system.topRightCorner(2 * n, 2 * n) = -MatrixXcd::Identity(2 * n, 2 * n);  // V, I at b
    const double w = 2.0 * std::numbers::pi * frequency.value();
    for (const int at_b : {0, 1}) {
        const LineEnd& end = at_b ? line.b : line.a;
        const double into = at_b ? -1.0 : 1.0;
        const Complex contact{end.contact.resistance.value(), w * end.contact.inductance.value()};
        for (Eigen::Index i = 0; i < n; ++i) {
            const Eigen::Index row = (2 + at_b) * n + i, v = 2 * n * at_b, c = v + n;
            const Ending ending = end.endings[static_cast<std::size_t>(i)];
            if (ending == Ending::open) {
                system(row, c + i) = 1.0;
                continue;
            }
            system(row, v + i) = 1.0;
            system(row, c + i) += into * contact;
            if (ending != Ending::tied) system(row, c + i) += into * 50.0;
            for (Eigen::Index k = 0; end.reference_has_contact && k < n; ++k) {
                system(row, c + k) += into * contact;
            }
            if (ending == Ending::port) ports.push_back(row);
        }
    }
    const auto count = static_cast<Eigen::Index>(ports.size());
    MatrixXcd drive = MatrixXcd::Zero(4 * n, count);
    for (Eigen::Index p = 0; p < count; ++p) drive(ports[static_cast<std::size_t>(p)], p) = 1.0;
    const MatrixXcd answer = system.fullPivLu().solve(drive);
    MatrixXcd s = MatrixXcd::Identity(count, count);
    for (Eigen::Index p = 0; p < count; ++p) {
        const Eigen::Index row = ports[static_cast<std::size_t>(p)];
        const bool at_b = row >= 3 * n;
        const Eigen::Index current = at_b ? row : row - n;
        s.row(p) -= (at_b ? -1.0 : 1.0) * 100.0 * answer.row(current);
    }
    return s;
}

double distance(const MatrixXcd& a, const MatrixXcd& b) { return (a - b).cwiseAbs().maxCoeff(); }

}  // namespace

// Closed form of an ideal coupler: Z0e 60 ohm, Z0o 125/3 ohm, 2e8 m/s, 60 degrees, 50 ohm ports.
// S(near) = j k sin / (sqrt(1 - k^2) cos + j sin), S(thru) = sqrt(1 - k^2) / (the same).
TEST_CASE("a matched coupler of one speed has its closed form") {
    const PerMetre line = by_hand(
        two_by_two(254.1666666666667, 45.8333333333333, 45.8333333333333, 254.1666666666667),
        two_by_two(101.6666666666667, -18.3333333333333, -18.3333333333333, 101.6666666666667));
    const Hertz frequency(1e9);
    const double length_mm = 2e8 / 1e9 / 6.0 * 1e3;
    const MatrixXcd s = scattering(bare(line, length_mm), frequency);
    const double k = (60.0 - 125.0 / 3.0) / (60.0 + 125.0 / 3.0);
    const double angle = std::numbers::pi / 3.0;
    const Complex j{0.0, 1.0};
    const Complex below = std::sqrt(1 - k * k) * std::cos(angle) + j * std::sin(angle);
    CHECK(std::abs(s(0, 0)) < 1e-12);
    CHECK(std::abs(s(1, 0) - j * k * std::sin(angle) / below) < 1e-12);
    CHECK(std::abs(s(2, 0) - std::sqrt(1 - k * k) / below) < 1e-12);
    CHECK(std::abs(s(3, 0)) < 1e-12);
    // The same by hand: .136354400 + j .0774336878 and .487705751 - j .858809992.
    CHECK(std::abs(s(1, 0) - Complex(.136354400, .0774336878)) < 1e-9);
    CHECK(std::abs(s(2, 0) - Complex(.487705751, -.858809992)) < 1e-9);
}

// Two modes of unequal speed; magnitudes from the even and the odd line solved by themselves,
// S = (even +- odd) / 2 with each a two-port in closed form.
TEST_CASE("a coupled pair is the sum of its even and its odd line") {
    PerMetre line = by_hand(two_by_two(300, 30, 30, 300), two_by_two(120, -6, -6, 120));
    struct Row {
        double frequency, resistance, loss_tangent, reflected, near, through, far;
    };
    const Row row = GENERATE(values<Row>({
        {1e8, 0, 0, .000262, .027601, .999575, .009419},
        {1e9, 0, 0, .006196, .043015, .994594, .094306},
        {3e9, 0, 0, .020680, .066644, .957900, .278494},
        {1e9, 5, .02, .004651, .041774, .953071, .090589},
    }));
    CAPTURE(row.frequency, row.resistance);
    // Resistance alone, without the reactance that skin effect brings: the closed form has none.
    Immittance z = immittance_at(line, Hertz(row.frequency));
    z.series.diagonal().array() += row.resistance;
    z.shunt *= Complex(1.0, -row.loss_tangent);
    const MatrixXcd s = scattering(z, bare(line, 100.0), Hertz(row.frequency));
    CHECK(std::abs(s(0, 0)) == Approx(row.reflected).margin(6e-7));
    CHECK(std::abs(s(1, 0)) == Approx(row.near).margin(6e-7));
    CHECK(std::abs(s(2, 0)) == Approx(row.through).margin(6e-7));
    CHECK(std::abs(s(3, 0)) == Approx(row.far).margin(6e-7));
}

TEST_CASE("ground wires, contacts and unlike ends agree with the exponential of the chain matrix") {
    const ContactImpedance contact{Ohms(0.05), Henries(0.5e-9)};
    EndedLine line{three_wires(), Millimetres(120.0), grounded_second(contact),
                   grounded_second(contact)};
    const int ends = GENERATE(0, 1, 2);
    if (ends == 1) line.b = grounded_second({Ohms(0.4), Henries(2e-9)});
    if (ends == 2) line.b.endings = {Ending::port, Ending::open, Ending::port};
    for (const double frequency : {1e6, 1e8, 1.3e9, 6e9}) {
        CAPTURE(ends, frequency);
        CHECK(distance(scattering(line, Hertz(frequency)),
                       scattering_by_chain(line, Hertz(frequency))) < 1e-9);
    }
}

TEST_CASE("a loaded conductor is a port that nobody drives") {
    EndedLine all = bare(three_wires(), 80.0), loaded = all;
    loaded.a.endings[1] = loaded.b.endings[1] = Ending::loaded;
    const std::vector<Eigen::Index> others{0, 2, 3, 5};
    const MatrixXcd s = scattering(all, Hertz(2e9));
    CHECK(distance(s(others, others), scattering(loaded, Hertz(2e9))) < 1e-13);
}

TEST_CASE("half waves without loss are no special case") {
    // 75 ohm, 2e8 m/s, 100 mm: a half wave at 1 GHz, where the line is not there at all.
    const PerMetre line =
        by_hand(MatrixXd::Constant(1, 1, 375.0), MatrixXd::Constant(1, 1, 1e12 / (75.0 * 2e8)));
    const MatrixXcd s = scattering(bare(line, 100.0), Hertz(1e9));
    CHECK(std::abs(s(0, 0)) < 1e-11);
    CHECK(std::abs(s(1, 0) + 1.0) < 1e-11);
}

TEST_CASE("direct current meets the resistance of the conductor and its return") {
    // 0.4 ohm/m out and back (own and shared 0.2 each) over 120 mm and four contacts of 0.05 ohm.
    const double r = 0.4 * 0.12 + 4 * 0.05;
    PerMetre line = by_hand(MatrixXd::Constant(1, 1, 375.0), MatrixXd::Constant(1, 1, 60.0));
    line.resistance_dc(0, 0) = 0.4;
    const LineEnd end{{Ending::port}, {Ohms(0.05), Henries(1e-9)}, true};
    const MatrixXcd s = scattering(EndedLine{line, Millimetres(120.0), end, end}, Hertz(0.0));
    CHECK(std::abs(s(1, 0) - 100.0 / (100.0 + r)) < 1e-10);
    CHECK(std::abs(s(0, 0) - r / (100.0 + r)) < 1e-10);
}

TEST_CASE("an open conductor does not float at direct current") {
    EndedLine line = bare(three_wires(), 100.0);
    line.a.endings[1] = line.b.endings[1] = Ending::open;
    const MatrixXcd s = scattering(line, Hertz(0.0));
    // 0.4 ohm/m out and back, 0.2 of it shared, over 0.1 m: the other two by Kirchhoff's laws.
    Eigen::Matrix2d through;
    through << 100.04, 0.02, 0.02, 100.04;
    const Eigen::Matrix2d current = 100.0 * through.inverse();
    CHECK((s.bottomLeftCorner(2, 2) - current).cwiseAbs().maxCoeff() < 1e-9);
}

TEST_CASE("two lengths in a row are one") {
    const PerMetre line = three_wires();
    const Hertz f(2.3e9);
    const MatrixXcd whole = scattering(bare(line, 110.0), f);
    const MatrixXcd parts =
        cascade(scattering(bare(line, 40.0), f), scattering(bare(line, 70.0), f));
    CHECK(distance(whole, parts) < 1e-12);
}

TEST_CASE("a line is reciprocal and makes no power; without loss it loses none") {
    const ContactImpedance contact{Ohms(0.05), Henries(0.5e-9)};
    EndedLine line{three_wires(), Millimetres(300.0), grounded_second(contact),
                   grounded_second(contact)};
    for (const double frequency : {0.0, 1e7, 4.7e8, 3.1e9, 1e10}) {
        CAPTURE(frequency);
        const MatrixXcd s = scattering(line, Hertz(frequency));
        CHECK(reciprocity_error(s) < 1e-12);
        CHECK(passivity_excess(s) < 1e-12);
    }
    line.per_metre.resistance_dc.setZero();
    line.per_metre.capacitance_loss.setZero();
    line.a.contact.resistance = line.b.contact.resistance = Ohms(0.0);
    for (const double frequency : {1e7, 4.7e8, 3.1e9, 1e10}) {
        const MatrixXcd s = scattering(line, Hertz(frequency));
        const MatrixXcd power = s.adjoint() * s;
        CHECK(distance(power, MatrixXcd::Identity(4, 4)) < 1e-9);
    }
}

TEST_CASE("the skin's reactance meets its resistance at high frequency and is none at low") {
    PerMetre line = by_hand(MatrixXd::Constant(1, 1, 300.0), MatrixXd::Constant(1, 1, 60.0));
    line.resistance_dc(0, 0) = 1.6;
    line.recession(0, 0) = 7e-3;  // invented: some H/m per m
    const auto inner = [&](double frequency) {
        const Immittance z = immittance_at(line, Hertz(frequency));
        return z.series(0, 0).imag() - 2 * std::numbers::pi * frequency * line.inductance(0, 0);
    };
    const double high = line.resistance(Hertz(1e11))(0, 0);
    CHECK(inner(1e11) == Approx(high).epsilon(1e-2));
    CHECK(inner(1e4) < 1e-2 * line.resistance(Hertz(1e4))(0, 0));
    // Below, the inner inductance stands still: the reactance grows as the frequency.
    CHECK(inner(2e4) / inner(1e4) == Approx(2.0).epsilon(1e-2));
}

}  // namespace pinfold
