#include "physics/field_system.hpp"

#include <algorithm>
#include <numbers>

#include "physics/constants.hpp"
#include "physics/field_part.hpp"

namespace pinfold::field {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Adds up the parts for single conductors, each at one volt alone.
class Unfolding {
public:
    Unfolding(const Outline& outline, const Mirrors& mirrors)
        : outline_(outline), conductors_(mirrors.conductors) {}

    /// Charges on one conductor for another's volt.
    void add_charges(const Part& part, const MatrixXd& sums, MatrixXd& out) const {
        add(part, sums, false, out);
    }

    /// Products of the charges of two conductors' volts.
    void add_products(const Part& part, const MatrixXd& sums, MatrixXd& out) const {
        add(part, sums, true, out);
    }

    /// Halves of what differs are given to both; without planes rows are made to sum to nothing.
    MatrixXd symmetric(const MatrixXd& matrix) const {
        MatrixXd result = 0.5 * (matrix + matrix.transpose());
        if (outline_.space.planes == 0) {
            const auto count = static_cast<double>(result.rows());
            const Eigen::VectorXd excess = result.rowwise().sum() / count;
            const double both = excess.sum() / count;
            result.colwise() -= excess;
            result.rowwise() -= excess.transpose();
            result.array() += both;
            const MatrixXd rounded = result;
            result = 0.5 * (rounded + rounded.transpose());
        }
        return result;
    }

private:
    /// One volt on a conductor is a share of each part's pattern of signs on its set.
    void add(const Part& part, const MatrixXd& sums, bool both, MatrixXd& out) const {
        for (std::size_t k = 0; k < outline_.conductors; ++k) {
            const Index column = part.conductors.of_set[conductors_.set_of[k]];
            if (column < 0) continue;
            const double share =
                part.sign(conductors_, k) / conductors_.sizes[conductors_.set_of[k]];
            for (std::size_t l = 0; l < outline_.conductors; ++l) {
                const std::size_t set = conductors_.set_of[l];
                const Index row = part.conductors.of_set[set];
                if (row < 0) continue;
                const double sign =
                    part.sign(conductors_, l) / (both ? conductors_.sizes[set] : 1.0);
                out(static_cast<Index>(l), static_cast<Index>(k)) +=
                    share * sign * sums(row, column);
            }
        }
    }

    const Outline& outline_;
    const Sets& conductors_;
};

}  // namespace

FieldSolution solve_mesh(const Outline& outline, const Mesh& mesh) {
    constexpr double permittivity = 2.0 * std::numbers::pi * vacuum_permittivity;
    const Mirrors mirrors = mirrors_of(outline, mesh);
    const Unfolding unfolding(outline, mirrors);
    Influence influence(outline, mesh);
    const auto count = static_cast<Index>(outline.conductors);
    const MatrixXd none = MatrixXd::Zero(count, count);
    FieldSolution solution;
    PartSums sums{none, none, none, none};
    Eigen::VectorXd room;
    for (const Part& part : parts_of(mirrors, mesh)) {
        const PartSums add = solve_part(outline, mesh, mirrors, part, influence, room);
        unfolding.add_charges(part, add.vacuum, sums.vacuum);
        unfolding.add_charges(part, add.whole, sums.whole);
        unfolding.add_charges(part, add.loss, sums.loss);
        unfolding.add_products(part, add.crowding, sums.crowding);
        solution.unknowns =
            std::max(solution.unknowns, static_cast<std::size_t>(equations_of(outline, part)));
    }
    solution.planes = outline.space.planes > 0;
    solution.capacitance_vacuum = unfolding.symmetric(permittivity * sums.vacuum);
    solution.capacitance = unfolding.symmetric(permittivity * sums.whole);
    solution.capacitance_loss = unfolding.symmetric(permittivity * sums.loss);
    // Hadamard's formula: walls that recede by n take n / eps0 times the square of the charge
    // density from the capacitance. Per mm of charge and 1000 mm to the metre.
    solution.recession =
        unfolding.symmetric(-permittivity * 2.0 * std::numbers::pi * 1000.0 * sums.crowding);
    return solution;
}

}  // namespace pinfold::field
