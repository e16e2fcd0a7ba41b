#include "physics/metal_loss.hpp"

#include <cmath>
#include <numbers>

#include "physics/constants.hpp"

namespace pinfold {

using Eigen::ArrayXd;
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

ArrayXd MetalLoss::total(Hertz frequency) const {
    return (direct_ * direct_ + frequency.value() * skin_.square()).sqrt();
}

MatrixXd MetalLoss::from_modes(const ArrayXd& modes) const {
    const MatrixXd half = shape_ * modes.sqrt().matrix().asDiagonal();
    return half * half.transpose();
}

MatrixXd MetalLoss::resistance(Hertz frequency) const { return from_modes(total(frequency)); }

MatrixXd MetalLoss::reactance(Hertz frequency) const {
    const ArrayXd all = total(frequency);
    if (direct_ == 0.0) return from_modes(all);
    return from_modes((all - direct_ * direct_ / all).max(0.0));
}

}  // namespace pinfold
