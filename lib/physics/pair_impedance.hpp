// Pairs and singles: what a signal driven between two conductors of a line, or on one, meets.
#pragma once

#include "physics/per_metre.hpp"

namespace pinfold {

/// A pair of conductors, every other signal conductor held at ground, unless said otherwise.
///
/// From the characteristic matrix Z of the two conductors (voltages = Z currents on an endless
/// line): differential, volts between them for an ampere that goes out on one and back on the
/// other, Z11 + Z22 - 2 Z12; common, volts on both (their mean) for an ampere that they share,
/// (Z11 + Z22 + 2 Z12) / 4. So they hold for two unequal conductors too. For equal ones they are
/// twice the odd and half the even mode's impedance.
struct PairImpedance {
    double z_diff = 0.0;          ///< ohm
    double z_common = 0.0;        ///< ohm
    double delay = 0.0;           ///< s/m, of a signal between the two: inductance / impedance
    double z_diff_matched = 0.0;  ///< ohm; of the whole line's matrix: the others end matched
    double coupling = 0.0;        ///< Z12 / sqrt(Z11 Z22); of equal conductors (Ze - Zo)/(Ze + Zo)
};

/// A conductor by itself, every other signal conductor held at ground.
struct SingleImpedance {
    double z = 0.0;      ///< ohm
    double delay = 0.0;  ///< s/m
};

/// Of the uniform medium with such a delay (s/m): the square of the delay against that of light.
double effective_permittivity(double delay);

/// The characteristic matrix of a line without loss, ohm, symmetric: Z C Z = L.
Eigen::MatrixXd characteristic_matrix(const Eigen::MatrixXd& inductance,
                                      const Eigen::MatrixXd& capacitance);

/// The pair of the line's conductors `plus` and `minus`, two different places in its matrices.
PairImpedance pair_impedance(const PerMetre& line, std::size_t plus, std::size_t minus);

/// The single conductor at a place in the line's matrices.
SingleImpedance single_impedance(const PerMetre& line, std::size_t conductor);

}  // namespace pinfold
