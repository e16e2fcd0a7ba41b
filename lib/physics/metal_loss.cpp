#include "physics/metal_loss.hpp"

#include <cmath>
#include <numbers>

#include "physics/constants.hpp"

namespace pinfold {

using Eigen::ArrayXcd;
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
    const ArrayXd skin = 2.0 * frequency.value() * skin_.square();
    const ArrayXcd modes =
        (direct_ * direct_ + std::complex<double>(0.0, 1.0) * skin.cast<std::complex<double>>())
            .sqrt();
    const MatrixXcd half = shape_ * modes.sqrt().matrix().asDiagonal();
    return half * half.transpose();
}

}  // namespace pinfold
