// The error of a field for the benchmarks, as the solver's own estimate means it.
#pragma once

#include <Eigen/Dense>
#include <algorithm>

#include "physics/per_metre.hpp"

namespace pinfold::bench {

/// The worst entry of what two matrices differ by, against the diagonals of the second.
inline double worst(const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
    const Eigen::VectorXd scale = other.diagonal().cwiseSqrt().cwiseInverse();
    return (scale.asDiagonal() * (one - other) * scale.asDiagonal()).cwiseAbs().maxCoeff();
}

/// The worst of both matrices of a solution.
inline double error_of(const FieldSolution& solution, const FieldSolution& exact) {
    return std::max(worst(solution.capacitance, exact.capacitance),
                    worst(solution.capacitance_vacuum, exact.capacitance_vacuum));
}

}  // namespace pinfold::bench
