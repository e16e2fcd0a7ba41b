#include "physics/pair_impedance.hpp"

#include <array>
#include <cassert>
#include <cmath>

#include "physics/constants.hpp"

namespace pinfold {
namespace {

/// Between the two conductors of a 2 by 2 matrix, for currents out on one and back on the other.
double between(const Eigen::MatrixXd& matrix, Eigen::Index plus, Eigen::Index minus) {
    return matrix(plus, plus) + matrix(minus, minus) - 2.0 * matrix(plus, minus);
}

}  // namespace

double effective_permittivity(double delay) {
    return delay * delay / (vacuum_permeability * vacuum_permittivity);
}

Eigen::MatrixXd characteristic_matrix(const Eigen::MatrixXd& inductance,
                                      const Eigen::MatrixXd& capacitance) {
    // Z = C^-1/2 (C^1/2 L C^1/2)^1/2 C^-1/2, symmetric and positive by its making.
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> c(capacitance);
    const Eigen::MatrixXd root = c.operatorSqrt();
    const Eigen::MatrixXd inverse = c.operatorInverseSqrt();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> delays(root * inductance * root);
    const Eigen::MatrixXd z = inverse * delays.operatorSqrt() * inverse;
    return 0.5 * (z + z.transpose());
}

PairImpedance pair_impedance(const PerMetre& line, std::size_t plus, std::size_t minus) {
    assert(plus != minus);
    const std::array<Eigen::Index, 2> two{static_cast<Eigen::Index>(plus),
                                          static_cast<Eigen::Index>(minus)};
    const Eigen::MatrixXd capacitance = line.capacitance(two, two);
    const Eigen::MatrixXd vacuum = line.capacitance_vacuum(two, two);
    const Eigen::MatrixXd inductance = vacuum_permeability * vacuum_permittivity * vacuum.inverse();
    const Eigen::MatrixXd z = characteristic_matrix(inductance, capacitance);
    const Eigen::MatrixXd whole = characteristic_matrix(line.inductance, line.capacitance);

    PairImpedance pair;
    pair.z_diff = between(z, 0, 1);
    pair.z_common = (z(0, 0) + z(1, 1) + 2.0 * z(0, 1)) / 4.0;
    pair.delay = between(inductance, 0, 1) / pair.z_diff;
    pair.z_diff_matched = between(whole, two[0], two[1]);
    pair.coupling = z(0, 1) / std::sqrt(z(0, 0) * z(1, 1));
    return pair;
}

SingleImpedance single_impedance(const PerMetre& line, std::size_t conductor) {
    const auto at = static_cast<Eigen::Index>(conductor);
    const double capacitance = line.capacitance(at, at);
    const double inductance =
        vacuum_permeability * vacuum_permittivity / line.capacitance_vacuum(at, at);
    return {std::sqrt(inductance / capacitance), std::sqrt(inductance * capacitance)};
}

}  // namespace pinfold
