#include "physics/network.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

#include "physics/supernodes.hpp"

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#include <Eigen/SparseCholesky>
#pragma GCC diagnostic pop

namespace pinfold {
namespace {

/// The nodal equations of a network whose loads are linearised at some voltages.
class NodalEquations {
public:
    explicit NodalEquations(const Network& network) : network_(network), supernodes_(network) {
        const auto size = static_cast<Eigen::Index>(supernodes_.unknowns());
        matrix_.resize(size, size);
        fixed_ = Eigen::VectorXd::Zero(size);
        for (const Resistor& resistor : network.resistors) {
            assert(resistor.resistance.value() > 0.0);
            add(resistor.one, resistor.other, 1.0 / resistor.resistance.value(), entries_, fixed_);
        }
        for (const Injection& injection : network.injections) {
            enter(injection.node, injection.current.value(), fixed_);
        }
    }

    /// Volts of all unknowns with each load drawing its power, linearised at a voltage across it;
    /// nothing if the linearised network is not positive definite.
    std::optional<Eigen::VectorXd> solve(const std::vector<double>& across, double share) {
        std::vector<Eigen::Triplet<double>> entries = entries_;
        Eigen::VectorXd right = fixed_;
        for (std::size_t i = 0; i < network_.loads.size(); ++i) {
            const PowerLoad& load = network_.loads[i];
            const double watts = share * load.power.value();
            add(load.plus, load.minus, -watts / (across[i] * across[i]), entries, right);
            enter(load.plus, -2.0 * watts / across[i], right);
            enter(load.minus, 2.0 * watts / across[i], right);
        }
        if (right.size() == 0) return right;
        matrix_.setFromTriplets(entries.begin(), entries.end());
        if (!analysed_) factors_.analyzePattern(matrix_);
        analysed_ = true;
        factors_.factorize(matrix_);
        if (factors_.info() != Eigen::Success) return std::nullopt;
        if (factors_.vectorD().minCoeff() <= 0.0) return std::nullopt;
        return factors_.solve(right);
    }

    double volts(std::size_t node, const Eigen::VectorXd& unknowns) const {
        const int unknown = supernodes_.unknown(node);
        return supernodes_.rise(node) + (unknown < 0 ? 0.0 : unknowns[unknown]);
    }

    std::vector<double> across_loads(const Eigen::VectorXd& unknowns) const {
        std::vector<double> across;
        for (const PowerLoad& load : network_.loads) {
            across.push_back(volts(load.plus, unknowns) - volts(load.minus, unknowns));
        }
        return across;
    }

    NetworkSolution solution(const Eigen::VectorXd& unknowns) const {
        NetworkSolution solution;
        std::vector<double> leaving(network_.nodes, 0.0);
        const auto carry = [&](std::size_t from, std::size_t to, double amperes) {
            leaving[from] += amperes;
            leaving[to] -= amperes;
            return Amperes(amperes);
        };
        for (std::size_t node = 0; node < network_.nodes; ++node) {
            solution.voltages.emplace_back(volts(node, unknowns));
        }
        for (const Resistor& resistor : network_.resistors) {
            const Volts drop = solution.voltages[resistor.one] - solution.voltages[resistor.other];
            solution.currents.push_back(
                carry(resistor.one, resistor.other, drop.value() / resistor.resistance.value()));
        }
        for (const PowerLoad& load : network_.loads) {
            const Volts across = solution.voltages[load.plus] - solution.voltages[load.minus];
            solution.drawn.push_back(
                carry(load.plus, load.minus, load.power.value() / across.value()));
        }
        for (const Injection& injection : network_.injections) {
            leaving[injection.node] -= injection.current.value();
        }
        solution.given = supernodes_.given(network_, std::move(leaving));
        return solution;
    }

private:
    /// A conductance between two nodes; what stands between a node and its supernode is known.
    void add(std::size_t one, std::size_t other, double siemens,
             std::vector<Eigen::Triplet<double>>& entries, Eigen::VectorXd& right) const {
        const int a = supernodes_.unknown(one);
        const int b = supernodes_.unknown(other);
        const double known = siemens * (supernodes_.rise(one) - supernodes_.rise(other));
        enter(one, -known, right);
        enter(other, known, right);
        if (a >= 0) entries.emplace_back(a, a, siemens);
        if (b >= 0) entries.emplace_back(b, b, siemens);
        if (a < 0 || b < 0) return;
        entries.emplace_back(a, b, -siemens);
        entries.emplace_back(b, a, -siemens);
    }

    void enter(std::size_t node, double amperes, Eigen::VectorXd& right) const {
        const int unknown = supernodes_.unknown(node);
        if (unknown >= 0) right[unknown] += amperes;
    }

    const Network& network_;
    Supernodes supernodes_;
    std::vector<Eigen::Triplet<double>> entries_;  ///< of the resistors
    Eigen::VectorXd fixed_;                        ///< what enters whatever the loads do
    Eigen::SparseMatrix<double> matrix_;
    Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factors_;
    bool analysed_ = false;
};

bool all_above_nothing(const std::vector<double>& volts) {
    return std::ranges::all_of(volts, [](double v) { return v > 0.0 && std::isfinite(v); });
}

/// Whether two sets of voltages are one but for rounding.
bool same(const std::vector<double>& one, const std::vector<double>& other) {
    for (std::size_t i = 0; i < one.size(); ++i) {
        if (std::abs(one[i] - other[i]) > 1e-10 * std::abs(one[i])) return false;
    }
    return true;
}

/// Newton's method for a share of the powers, from voltages across the loads.
std::optional<Eigen::VectorXd> settle(NodalEquations& equations, std::vector<double> across,
                                      double share) {
    constexpr int most_steps = 60;  // quadratic, or halving where the two solutions meet
    for (int step = 0; step < most_steps; ++step) {
        if (!all_above_nothing(across)) return std::nullopt;
        std::optional<Eigen::VectorXd> unknowns = equations.solve(across, share);
        if (!unknowns) return std::nullopt;
        std::vector<double> next = equations.across_loads(*unknowns);
        if (same(across, next)) return unknowns;
        across = std::move(next);
    }
    return std::nullopt;
}

}  // namespace

std::variant<NetworkSolution, Collapse> solve_network(const Network& network) {
    NodalEquations equations(network);
    // Any voltages will do where the loads draw nothing.
    const std::vector<double> any(network.loads.size(), 1.0);
    Eigen::VectorXd unknowns = *equations.solve(any, 0.0);
    const std::vector<double> idle = equations.across_loads(unknowns);
    if (!network.loads.empty()) {
        if (!all_above_nothing(idle)) return Collapse{0.0};
        constexpr double least_step = 1e-6;
        double share = 0.0;
        for (double step = 1.0; share < 1.0;) {
            const double wanted = std::min(1.0, share + step);
            if (auto settled = settle(equations, equations.across_loads(unknowns), wanted)) {
                unknowns = std::move(*settled);
                share = wanted;
            } else if ((step /= 2.0) < least_step) {
                return Collapse{share};
            }
        }
    }
    return equations.solution(unknowns);
}

}  // namespace pinfold
