#include "physics/per_metre.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace pinfold {
namespace {

constexpr double mu0 = 1.25663706212e-6;
constexpr double eps0 = 8.8541878128e-12;
constexpr double copper_ohm_m = 1.7241e-8;  ///< at 20 degC, IEC 60028

using Eigen::Index;
using Eigen::MatrixXd;

/// Rows and columns of the conductors that are left.
std::vector<Index> others(Index count, const std::vector<std::size_t>& ground) {
    std::vector<Index> left;
    for (Index i = 0; i < count; ++i) {
        if (std::ranges::find(ground, static_cast<std::size_t>(i)) == ground.end()) {
            left.push_back(i);
        }
    }
    return left;
}

}  // namespace

MatrixXd PerMetre::resistance(Hertz frequency) const {
    const double skin = std::sqrt(copper_ohm_m * std::numbers::pi * frequency.value() * mu0);
    return resistance_dc.binaryExpr(skin / mu0 * recession, [](double dc, double hf) {
        return std::copysign(std::hypot(dc, hf), dc == 0.0 ? hf : dc);
    });
}

MatrixXd PerMetre::conductance(Hertz frequency) const {
    return 2.0 * std::numbers::pi * frequency.value() * capacitance_loss;
}

PerMetre per_metre(const FieldSolution& solution, const std::vector<std::size_t>& ground) {
    const std::vector<Index> left = others(solution.capacitance.rows(), ground);
    PerMetre line;
    line.capacitance = solution.capacitance(left, left);
    line.capacitance_vacuum = solution.capacitance_vacuum(left, left);
    line.capacitance_loss = solution.capacitance_loss(left, left);
    line.inductance = mu0 * eps0 * line.capacitance_vacuum.inverse();
    // dL = -mu0 eps0 C^-1 dC C^-1.
    line.recession =
        -line.inductance * solution.recession(left, left) * line.inductance / (mu0 * eps0);
    double shared = 0.0;
    for (const std::size_t g : ground) {
        shared += 1.0 / solution.resistance[static_cast<Index>(g)];
    }
    const double of_ground = ground.empty() || solution.planes ? 0.0 : 1.0 / shared;
    line.resistance_dc =
        MatrixXd::Constant(line.capacitance.rows(), line.capacitance.cols(), of_ground);
    for (std::size_t i = 0; i < left.size(); ++i) {
        const auto at = static_cast<Index>(i);
        line.resistance_dc(at, at) += solution.resistance[left[i]];
    }
    return line;
}

}  // namespace pinfold
