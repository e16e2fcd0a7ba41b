#include "physics/per_metre.hpp"

#include <algorithm>
#include <cassert>
#include <numbers>

#include "physics/constants.hpp"
#include "physics/metal_loss.hpp"

namespace pinfold {
namespace {

using Eigen::MatrixXd;

std::vector<Eigen::Index> left_over(const FieldSolution& solution,
                                    const std::vector<std::size_t>& ground) {
    std::vector<Eigen::Index> kept;
    for (Eigen::Index i = 0; i < solution.capacitance.rows(); ++i) {
        if (std::ranges::find(ground, static_cast<std::size_t>(i)) == ground.end()) {
            kept.push_back(i);
        }
    }
    return kept;
}

/// Each conductor's own, and what the ground conductors side by side add to all; planes have none.
MatrixXd resistance_with_ground(const FieldSolution& solution,
                                const std::vector<std::size_t>& ground,
                                const std::vector<Eigen::Index>& kept) {
    MatrixXd ohms = solution.resistance(kept).asDiagonal();
    if (solution.planes) return ohms;
    double siemens = 0.0;
    for (std::size_t i : ground) {
        siemens += 1.0 / solution.resistance[static_cast<Eigen::Index>(i)];
    }
    ohms.array() += 1.0 / siemens;
    return ohms;
}

}  // namespace

Eigen::MatrixXd PerMetre::resistance(Hertz frequency) const {
    return MetalLoss(*this).series(frequency).real();
}

Eigen::MatrixXd PerMetre::conductance(Hertz frequency) const {
    return 2.0 * std::numbers::pi * frequency.value() * capacitance_loss;
}

PerMetre per_metre(const FieldSolution& solution, const std::vector<std::size_t>& ground) {
    const std::vector<Eigen::Index> kept = left_over(solution, ground);
    assert(!kept.empty() && (solution.planes || !ground.empty()));
    PerMetre line;
    line.capacitance = solution.capacitance(kept, kept);
    line.capacitance_vacuum = solution.capacitance_vacuum(kept, kept);
    line.capacitance_loss = solution.capacitance_loss(kept, kept);
    const auto n = static_cast<Eigen::Index>(kept.size());
    const MatrixXd inverse = line.capacitance_vacuum.llt().solve(MatrixXd::Identity(n, n));
    line.inductance =
        vacuum_permeability * vacuum_permittivity * 0.5 * (inverse + inverse.transpose());
    // d(1/C) = -1/C dC 1/C
    const MatrixXd change = inverse * solution.recession(kept, kept) * inverse;
    line.recession =
        -vacuum_permeability * vacuum_permittivity * 0.5 * (change + change.transpose());
    line.resistance_dc = resistance_with_ground(solution, ground, kept);
    return line;
}

}  // namespace pinfold
