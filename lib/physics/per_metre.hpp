// A line per metre: the matrices of its signal conductors once the others are tied to ground.
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <vector>

#include "base/units.hpp"

namespace pinfold {

/// What the field of a cross-section comes to, for all its conductors in their order, N by N.
///
/// With planes the charges are those with every other conductor and the planes at zero volts. With
/// none, each row sums to nothing: only differences of voltage make charge.
struct FieldSolution {
    Eigen::MatrixXd capacitance;         ///< F/m
    Eigen::MatrixXd capacitance_vacuum;  ///< F/m, the dielectrics taken away
    Eigen::MatrixXd capacitance_loss;    ///< F/m; times the angular frequency, the conductance
    /// F/m per m that every metal wall recedes, in vacuum: from it comes the loss of the skin.
    Eigen::MatrixXd recession;
    Eigen::VectorXd resistance;   ///< ohm/m of each conductor to direct current, at 20 degC
    bool planes = false;          ///< at least one; planes carry return current without loss
    double error_estimate = 0.0;  ///< relative, of the worst entry scaled by its diagonal
    std::size_t unknowns = 0;     ///< of the largest system solved
};

/// The matrices of the conductors that are left, in their order, n by n, all symmetric.
struct PerMetre {
    Eigen::MatrixXd capacitance;         ///< F/m
    Eigen::MatrixXd capacitance_vacuum;  ///< F/m
    Eigen::MatrixXd capacitance_loss;    ///< F/m
    Eigen::MatrixXd inductance;          ///< H/m, of the outside field, = mu0 eps0 / C vacuum
    Eigen::MatrixXd recession;           ///< H/m per m that every metal wall recedes
    Eigen::MatrixXd resistance_dc;       ///< ohm/m, the share of the ground included

    /// Ohm/m at a frequency: direct current and skin effect blended.
    Eigen::MatrixXd resistance(Hertz frequency) const;
    /// S/m at a frequency.
    Eigen::MatrixXd conductance(Hertz frequency) const;
};

/// Ties the conductors `ground` together (and to the planes) as the reference of the others.
///
/// Without planes at least one conductor must be ground; not all may be. A section is solved once
/// and reduced for as many assignments of its conductors as are asked of it.
PerMetre per_metre(const FieldSolution& solution, const std::vector<std::size_t>& ground);

}  // namespace pinfold
