#include "physics/line.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace pinfold {
namespace {

using Eigen::Index;
using Eigen::MatrixXcd;
using Eigen::MatrixXd;
using Eigen::VectorXcd;
using Eigen::VectorXd;
using Complex = std::complex<double>;

double angular(Hertz frequency) { return 2.0 * std::numbers::pi * frequency.value(); }

/// A complex matrix as two real ones: a product of two costs three real products, not four, and
/// those are faster.
struct Parts {
    MatrixXd real, imaginary;
};

Parts parts_of(const MatrixXcd& whole) { return {whole.real(), whole.imag()}; }

MatrixXcd whole_of(const Parts& parts) {
    MatrixXcd whole(parts.real.rows(), parts.real.cols());
    whole.real() = parts.real;
    whole.imag() = parts.imaginary;
    return whole;
}

Parts operator*(const Parts& a, const Parts& b) {
    Parts product;
    constexpr Index few = 10;  // measured: for so small ones making room is what takes time
    if (a.real.rows() < few) {
        product.real = a.real.lazyProduct(b.real) - a.imaginary.lazyProduct(b.imaginary);
        product.imaginary = a.real.lazyProduct(b.imaginary) + a.imaginary.lazyProduct(b.real);
        return product;
    }
    const MatrixXd of_a = a.real + a.imaginary, of_b = b.real + b.imaginary;
    MatrixXd imaginary;
    imaginary.noalias() = a.imaginary * b.imaginary;
    product.real.noalias() = a.real * b.real;
    product.imaginary.noalias() = of_a * of_b;
    product.imaginary -= product.real + imaginary;
    product.real -= imaginary;
    return product;
}

Parts operator*(double factor, Parts a) {
    a.real *= factor;
    a.imaginary *= factor;
    return a;
}

constexpr int series_terms = 12;
constexpr int block = 4;

/// 1 / (2k + shift)! for k below `series_terms`.
constexpr std::array<double, series_terms> series(int shift) {
    std::array<double, series_terms> coefficients{};
    double factorial = 1.0;
    for (int k = 0; k < series_terms; ++k) {
        coefficients[static_cast<std::size_t>(k)] = 1.0 / factorial;
        const int next = 2 * k + shift;
        factorial *= static_cast<double>(next + 1) * static_cast<double>(next + 2);
    }
    return coefficients;
}

/// Polynomials by Paterson and Stockmeyer, side by side so that both take one product:
/// powers 1 to `block` are at hand, Horner over blocks.
Parts polynomials(const std::array<Parts, block>& powers) {
    constexpr std::array<std::array<double, series_terms>, 2> c{series(0), series(1)};
    const Index n = powers[0].real.rows();
    Parts sum{MatrixXd::Zero(n, 2 * n), MatrixXd::Zero(n, 2 * n)};
    for (int first = series_terms - block; first >= 0; first -= block) {
        if (first + block < series_terms) sum = powers[block - 1] * sum;
        const auto at = static_cast<std::size_t>(first);
        for (std::size_t i = 0; i < c.size(); ++i) {
            auto real = sum.real.middleCols(static_cast<Index>(i) * n, n);
            auto imaginary = sum.imaginary.middleCols(static_cast<Index>(i) * n, n);
            for (std::size_t k = 1; k < block; ++k) {
                real += c[i][at + k] * powers[k - 1].real;
                imaginary += c[i][at + k] * powers[k - 1].imaginary;
            }
            real.diagonal().array() += c[i][at];
        }
    }
    return sum;
}

/// cosh(sqrt(A)) and sinh(sqrt(A)) / sqrt(A), both whole functions of the matrix A.
struct HyperbolicPair {
    Parts cosh, sinhc;
};

/// Twelve terms leave less than 1e-16 where the norm is below 4; larger matrices are quartered and
/// their functions doubled: cosh 2x = 2 cosh^2 x - 1, sinh 2x / 2x = cosh x sinh x / x.
HyperbolicPair hyperbolic(Parts a) {
    const double norm = (a.real.cwiseAbs() + a.imaginary.cwiseAbs()).colwise().sum().maxCoeff();
    int doublings = 0;
    while (std::ldexp(norm, -2 * doublings) > 4.0) ++doublings;
    a = std::ldexp(1.0, -2 * doublings) * std::move(a);
    const Parts square = a * a;
    const std::array<Parts, block> powers{a, square, square * a, square * square};
    const Index n = a.real.rows();
    Parts both = polynomials(powers);
    for (int i = 0; i < doublings; ++i) {
        both = Parts{both.real.leftCols(n), both.imaginary.leftCols(n)} * both;
        both.real.leftCols(n) *= 2.0;
        both.imaginary.leftCols(n) *= 2.0;
        both.real.leftCols(n).diagonal().array() -= 1.0;
    }
    return {{both.real.leftCols(n), both.imaginary.leftCols(n)},
            {both.real.rightCols(n), both.imaginary.rightCols(n)}};
}

/// The conditions at one end, row by row: `voltage` V + `current` I + `shared` (sum of I) = E, with
/// E the voltage behind the reference resistance of a port and I the currents into the line.
struct Condition {
    VectorXcd voltage, current, shared;

    MatrixXcd of(const MatrixXcd& voltages, const MatrixXcd& currents) const {
        MatrixXcd system = voltage.asDiagonal() * voltages;
        system.noalias() += current.asDiagonal() * currents;
        system.noalias() += shared * currents.colwise().sum();
        return system;
    }
};

Condition condition_of(const LineEnd& end, Hertz frequency) {
    const auto n = static_cast<Index>(end.endings.size());
    const Complex contact{end.contact.resistance.value(),
                          angular(frequency) * end.contact.inductance.value()};
    Condition condition{VectorXcd::Ones(n), VectorXcd::Constant(n, contact), VectorXcd::Zero(n)};
    for (Index i = 0; i < n; ++i) {
        const Ending ending = end.endings[static_cast<std::size_t>(i)];
        if (ending == Ending::open) {
            condition.voltage[i] = 0.0;
            condition.current[i] = 1.0;
            continue;
        }
        if (end.reference_has_contact) condition.shared[i] = contact;
        if (ending != Ending::tied) condition.current[i] += reference_ohm;
    }
    return condition;
}

std::vector<Index> ports_of(const LineEnd& end) {
    std::vector<Index> ports;
    for (std::size_t i = 0; i < end.endings.size(); ++i) {
        if (end.endings[i] == Ending::port) ports.push_back(static_cast<Index>(i));
    }
    return ports;
}

bool same(const LineEnd& one, const LineEnd& other) {
    return one.endings == other.endings && one.contact == other.contact &&
           one.reference_has_contact == other.reference_has_contact;
}

/// The line from its middle: voltages and currents at the ends when the middle is left open
/// (`even`: x is the voltage there) and when it is shorted (`odd`: x is the current there).
struct Halves {
    MatrixXcd even_voltage, even_current, odd_voltage, odd_current;
};

Parts transposed(const Parts& a) { return {a.real.transpose(), a.imaginary.transpose()}; }

Halves halves_of(const Immittance& z, double half_metres) {
    const Parts series = half_metres * parts_of(z.series);
    const Parts shunt = half_metres * parts_of(z.shunt);
    const HyperbolicPair pair = hyperbolic(series * shunt);
    Halves halves;
    halves.even_current = whole_of(shunt * pair.sinhc);
    halves.odd_voltage = whole_of(series * transposed(pair.sinhc));
    halves.even_voltage = whole_of(pair.cosh);
    halves.odd_current = halves.even_voltage.transpose();
    return halves;
}

/// Currents into the line for a volt behind each of some ends, one by one: currents times the
/// inverse of the system, solved from the left, where it takes no product.
MatrixXcd driven(const MatrixXcd& currents, const MatrixXcd& system,
                 const std::vector<Index>& ends) {
    const MatrixXcd all = MatrixXcd(system.transpose()).partialPivLu().solve(currents.transpose());
    return all(ends, Eigen::all).transpose();
}

/// Ends alike: the even and the odd half are solved apart.
MatrixXcd admittance_alike(const Halves& h, const Condition& end, const std::vector<Index>& ports) {
    const auto m = static_cast<Index>(ports.size());
    const MatrixXcd even =
        driven(h.even_current(ports, Eigen::all), end.of(h.even_voltage, h.even_current), ports);
    const MatrixXcd odd =
        driven(h.odd_current(ports, Eigen::all), end.of(h.odd_voltage, h.odd_current), ports);
    MatrixXcd admittance(2 * m, 2 * m);
    admittance << 0.5 * (even + odd), 0.5 * (even - odd), 0.5 * (even - odd), 0.5 * (even + odd);
    return admittance;
}

MatrixXcd admittance_unlike(const Halves& h, const Condition& a, const Condition& b,
                            const std::vector<Index>& ports) {
    const Index n = h.even_voltage.rows();
    const auto m = static_cast<Index>(ports.size());
    MatrixXcd system(2 * n, 2 * n), currents(2 * m, 2 * n);
    system << a.of(h.even_voltage, h.even_current), a.of(h.odd_voltage, h.odd_current),
        b.of(h.even_voltage, h.even_current), -b.of(h.odd_voltage, h.odd_current);
    const MatrixXcd even = h.even_current(ports, Eigen::all);
    const MatrixXcd odd = h.odd_current(ports, Eigen::all);
    currents << even, odd, even, -odd;
    std::vector<Index> ends = ports;
    for (Index port : ports) ends.push_back(n + port);
    return driven(currents, system, ends);
}

}  // namespace

Immittance immittance_at(const PerMetre& line, Hertz frequency) {
    return immittance_at(line, MetalLoss(line), frequency);
}

Immittance immittance_at(const PerMetre& line, const MetalLoss& metal, Hertz frequency) {
    const double w = angular(frequency);
    const Complex j{0.0, 1.0};
    constexpr double stated_at = 1e9, least = 1e3;
    const double e_folds = std::log(std::max(frequency.value(), least) / stated_at);
    const Eigen::MatrixXd capacitance =
        line.capacitance - 2.0 / std::numbers::pi * e_folds * line.capacitance_loss;
    Immittance z{metal.series(frequency) + j * w * line.inductance,
                 line.conductance(frequency) + j * w * capacitance};
    // So little that nothing shows it, and enough that an open conductor does not float at 0 Hz.
    constexpr double leakage = 1e-12;
    z.shunt.diagonal().array() += leakage;
    return z;
}

Eigen::MatrixXcd scattering(const EndedLine& line, Hertz frequency) {
    return scattering(immittance_at(line.per_metre, frequency), line, frequency);
}

Eigen::MatrixXcd scattering(const Immittance& immittance, const EndedLine& line, Hertz frequency) {
    assert(ports_of(line.a) == ports_of(line.b));
    const std::vector<Index> ports = ports_of(line.a);
    const Halves halves = halves_of(immittance, 0.5e-3 * line.length.value());
    const Condition a = condition_of(line.a, frequency);
    const MatrixXcd admittance =
        same(line.a, line.b) ? admittance_alike(halves, a, ports)
                             : admittance_unlike(halves, a, condition_of(line.b, frequency), ports);
    return MatrixXcd::Identity(admittance.rows(), admittance.rows()) -
           2.0 * reference_ohm * admittance;
}

}  // namespace pinfold
