#include "physics/network.hpp"

#include <cassert>

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#include <Eigen/SparseCholesky>
#pragma GCC diagnostic pop

namespace pinfold {
namespace {

using Conductances = Eigen::SparseMatrix<double>;

/// The nodal conductance matrix without the held node 0.
Conductances conductances_of(std::size_t nodes, const std::vector<Resistor>& resistors) {
    std::vector<Eigen::Triplet<double>> entries;
    const auto add = [&](std::size_t row, std::size_t column, double siemens) {
        if (row == 0 || column == 0) return;
        entries.emplace_back(static_cast<int>(row - 1), static_cast<int>(column - 1), siemens);
    };
    for (const Resistor& resistor : resistors) {
        assert(resistor.resistance.value() > 0.0);
        const double siemens = 1.0 / resistor.resistance.value();
        add(resistor.one, resistor.one, siemens);
        add(resistor.other, resistor.other, siemens);
        add(resistor.one, resistor.other, -siemens);
        add(resistor.other, resistor.one, -siemens);
    }
    const auto size = static_cast<Eigen::Index>(nodes - 1);
    Conductances matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    return matrix;
}

}  // namespace

NetworkSolution solve_network(std::size_t nodes, const std::vector<Resistor>& resistors,
                              const std::vector<Injection>& injections) {
    NetworkSolution solution;
    solution.voltages.assign(nodes, Volts(0.0));
    if (nodes > 1) {
        Eigen::VectorXd injected = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(nodes - 1));
        for (const Injection& injection : injections) {
            if (injection.node == 0) continue;
            injected[static_cast<Eigen::Index>(injection.node - 1)] += injection.current.value();
        }
        const Eigen::SimplicialLDLT<Conductances> factors(conductances_of(nodes, resistors));
        const Eigen::VectorXd volts = factors.solve(injected);
        for (std::size_t i = 1; i < nodes; ++i) {
            solution.voltages[i] = Volts(volts[static_cast<Eigen::Index>(i - 1)]);
        }
    }
    for (const Resistor& resistor : resistors) {
        const Volts drop = solution.voltages[resistor.one] - solution.voltages[resistor.other];
        solution.currents.emplace_back(drop.value() / resistor.resistance.value());
    }
    return solution;
}

}  // namespace pinfold
