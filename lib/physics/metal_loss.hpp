// Loss in metal over frequency: from the resistance to direct current to that of the skin.
#pragma once

#include "physics/per_metre.hpp"

namespace pinfold {

/// The resistance and the inner reactance of a line's conductors, one decomposition for all
/// frequencies.
///
/// In the modes that make both diagonal, the impedance is sqrt(Rdc^2 + 2j Rskin^2): direct current
/// at the bottom, resistance and reactance alike at the top, and causal (H. Johnson and M. Graham,
/// High-Speed Signal Propagation, 2003, from memory). Of a round wire it is right to 7 % at
/// worst, of a wide sheet it is up to a fifth off between the two. The skin's resistance is Rs /
/// mu0 times what the inductance gains for each metre of receding wall (H. A. Wheeler, Proceedings
/// of the IRE 30(9), 1942). The matrix is symmetric, neither of its parts is ever negative.
class MetalLoss {
public:
    explicit MetalLoss(const PerMetre& line);

    Eigen::MatrixXcd series(Hertz frequency) const;  ///< ohm/m

private:
    Eigen::MatrixXd from_modes(const Eigen::ArrayXd& modes) const;

    Eigen::MatrixXd shape_;
    double direct_ = 1.0;  ///< of every mode; 0 if nothing resists direct current
    Eigen::ArrayXd skin_;  ///< of each mode, per root of a hertz
};

}  // namespace pinfold
