// Loss in metal over frequency: from the resistance to direct current to that of the skin.
#pragma once

#include "physics/per_metre.hpp"

namespace pinfold {

/// The resistance and the inner reactance of a line's conductors, one decomposition for all
/// frequencies.
///
/// In the modes that make both diagonal, resistance to direct current and that of the skin add as
/// squares; the skin's is Rs / mu0 times what the inductance gains for each metre of receding wall
/// (H. A. Wheeler, Proceedings of the IRE 30(9), 1942). The metal's inner reactance is
/// R - Rdc R^-1 Rdc: it meets R where the skin effect rules, as a causal line must have it, and is
/// a constant inductance below. Both matrices are symmetric, neither is ever negative.
class MetalLoss {
public:
    explicit MetalLoss(const PerMetre& line);

    Eigen::MatrixXd resistance(Hertz frequency) const;  ///< ohm/m
    Eigen::MatrixXd reactance(Hertz frequency) const;   ///< ohm/m

private:
    /// What each mode has of sqrt(direct^2 + skin^2).
    Eigen::ArrayXd total(Hertz frequency) const;
    Eigen::MatrixXd from_modes(const Eigen::ArrayXd& modes) const;

    Eigen::MatrixXd shape_;
    double direct_ = 1.0;  ///< of every mode; 0 if nothing resists direct current
    Eigen::ArrayXd skin_;  ///< of each mode, per root of a hertz
};

}  // namespace pinfold
