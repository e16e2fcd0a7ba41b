#include "physics/metal_loss.hpp"

#include <cmath>
#include <numbers>

#include "physics/constants.hpp"

namespace pinfold {

using Eigen::ArrayXd;
using Eigen::MatrixXcd;
using Eigen::MatrixXd;

MetalLoss::MetalLoss(const PerMetre& line) {
    const auto n = line.resistance_dc.rows();
    MatrixXd root = MatrixXd::Identity(n, n);
    if (line.resistance_dc.isZero(0.0)) {
        direct_ = 0.0;
    } else {
        root = line.resistance_dc.llt().matrixL();
    }
    const auto lower = root.triangularView<Eigen::Lower>();
    const MatrixXd half = lower.solve(line.recession);
    const MatrixXd recession = lower.solve(half.transpose());
    const Eigen::SelfAdjointEigenSolver<MatrixXd> modes(recession);
    constexpr double resistivity = 1e-6 / 58.0;  // ohm m, annealed copper, IEC 60028
    skin_ = std::sqrt(std::numbers::pi * resistivity / vacuum_permeability) *
            modes.eigenvalues().array().max(0.0);
    shape_ = root * modes.eigenvectors();
}

MatrixXcd MetalLoss::series(Hertz frequency) const {
    // The root of d + js has the parts sqrt((|d + js| +- d) / 2), neither below nothing.
    const double square = direct_ * direct_;
    const ArrayXd skin = 2.0 * frequency.value() * skin_.square();
    const ArrayXd size = (skin.square() + square * square).sqrt();
    MatrixXcd sum(shape_.rows(), shape_.cols());
    sum.real() = from_modes((0.5 * (size + square)).sqrt());
    sum.imag() = from_modes((0.5 * (size - square).max(0.0)).sqrt());
    return sum;
}

MatrixXd MetalLoss::from_modes(const ArrayXd& modes) const {
    const MatrixXd half = shape_ * modes.sqrt().matrix().asDiagonal();
    return half * half.transpose();
}

}  // namespace pinfold
