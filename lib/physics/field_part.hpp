// One part of the charges on a mesh: its equations solved, and what its conductors bear.
#pragma once

#include <Eigen/Dense>

#include "physics/field_influence.hpp"
#include "physics/field_mirror.hpp"

namespace pinfold::field {

/// For each set of conductors at one volt (with its signs) in a column: the charge, over 2 pi eps0,
/// of the chosen conductor of each set.
struct PartSums {
    Eigen::MatrixXd vacuum;    ///< without dielectrics
    Eigen::MatrixXd whole;     ///< the free charge, with them
    Eigen::MatrixXd loss;      ///< what loss adds to that, to first order
    Eigen::MatrixXd crowding;  ///< charge density times charge density over all metal, in vacuum
};

/// Solves in this order: vacuum first, then dielectrics by a Schur complement, so that the
/// inductance comes for nothing.
///
/// `room` is where the equations are written; what it held is lost.
PartSums solve_part(const Outline& outline, const Mesh& mesh, const Mirrors& mirrors,
                    const Part& part, Influence& influence, Eigen::VectorXd& room);

/// How many equations a part has.
Eigen::Index equations_of(const Outline& outline, const Part& part);

}  // namespace pinfold::field
