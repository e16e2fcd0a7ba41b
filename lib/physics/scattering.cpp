#include "physics/scattering.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace pinfold {

using Eigen::Index;
using Eigen::MatrixXcd;

MatrixXcd cascade(const MatrixXcd& left, const MatrixXcd& right) {
    assert(left.rows() == right.rows() && left.rows() % 2 == 0);
    const Index m = left.rows() / 2;
    const auto a11 = left.topLeftCorner(m, m), a12 = left.topRightCorner(m, m);
    const auto a21 = left.bottomLeftCorner(m, m), a22 = left.bottomRightCorner(m, m);
    const auto b11 = right.topLeftCorner(m, m), b12 = right.topRightCorner(m, m);
    const auto b21 = right.bottomLeftCorner(m, m), b22 = right.bottomRightCorner(m, m);
    // Waves between the two, towards the right one, for waves from the left and from the right.
    const MatrixXcd one = MatrixXcd::Identity(m, m);
    const Eigen::PartialPivLU<MatrixXcd> bounce(one - a22 * b11);
    const MatrixXcd from_left = bounce.solve(a21);
    const MatrixXcd from_right = bounce.solve(a22 * b12);
    MatrixXcd s(2 * m, 2 * m);
    s << a11 + a12 * b11 * from_left, a12 * (b12 + b11 * from_right), b21 * from_left,
        b22 + b21 * from_right;
    return s;
}

MatrixXcd beside(const MatrixXcd& one, const MatrixXcd& other) {
    const Index m = one.rows() / 2, k = other.rows() / 2;
    MatrixXcd s = MatrixXcd::Zero(2 * (m + k), 2 * (m + k));
    for (Index row = 0; row < 2; ++row) {
        for (Index column = 0; column < 2; ++column) {
            s.block(row * (m + k), column * (m + k), m, m) = one.block(row * m, column * m, m, m);
            s.block(row * (m + k) + m, column * (m + k) + m, k, k) =
                other.block(row * k, column * k, k, k);
        }
    }
    return s;
}

MatrixXcd mixed_mode(const MatrixXcd& scattering, const std::vector<PortPair>& pairs) {
    // Twice: columns of the waves in, then rows of the waves out, each a sum or a difference of
    // two.
    const auto count = static_cast<Index>(pairs.size());
    const double half = 1.0 / std::numbers::sqrt2;
    MatrixXcd in(scattering.rows(), 2 * count), modes(2 * count, 2 * count);
    for (Index p = 0; p < count; ++p) {
        const auto plus = static_cast<Index>(pairs[static_cast<std::size_t>(p)].first);
        const auto minus = static_cast<Index>(pairs[static_cast<std::size_t>(p)].second);
        in.col(p) = half * (scattering.col(plus) - scattering.col(minus));
        in.col(count + p) = half * (scattering.col(plus) + scattering.col(minus));
    }
    for (Index p = 0; p < count; ++p) {
        const auto plus = static_cast<Index>(pairs[static_cast<std::size_t>(p)].first);
        const auto minus = static_cast<Index>(pairs[static_cast<std::size_t>(p)].second);
        modes.row(p) = half * (in.row(plus) - in.row(minus));
        modes.row(count + p) = half * (in.row(plus) + in.row(minus));
    }
    return modes;
}

double reciprocity_error(const MatrixXcd& scattering) {
    return (scattering - scattering.transpose()).cwiseAbs().maxCoeff();
}

double passivity_excess(const MatrixXcd& scattering) {
    const MatrixXcd power = scattering.adjoint() * scattering;
    const Eigen::SelfAdjointEigenSolver<MatrixXcd> solver(power, Eigen::EigenvaluesOnly);
    return std::sqrt(std::max(solver.eigenvalues().maxCoeff(), 0.0)) - 1.0;
}

Decibels decibels(double amplitude) {
    return Decibels(20.0 * std::log10(std::max(amplitude, 1e-15)));
}

}  // namespace pinfold
