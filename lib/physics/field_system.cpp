#include "physics/field_system.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "physics/constants.hpp"
#include "physics/field_panel.hpp"

namespace pinfold::field {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

Index index(std::size_t i) { return static_cast<Index>(i); }

/// The rows of the system: potential at points of metal, field along the normal at points of faces.
class Assembly {
public:
    Assembly(const Outline& outline, const Mesh& mesh)
        : outline_(outline), mesh_(mesh), influence_(count(), count()) {
        for (const Panel& target : mesh.panels) {
            const std::size_t order = static_cast<std::size_t>(target.order);
            for (std::size_t i = target.first; i < target.first + order; ++i) fill_row(target, i);
        }
    }

    std::size_t count() const { return mesh_.points.size(); }
    std::size_t metal() const { return mesh_.metal_points; }
    std::size_t faces() const { return count() - metal(); }
    const Stretch& stretch(std::size_t point) const {
        return outline_.stretches[mesh_.stretch_of[point]];
    }
    /// Potentials (of metal) and fields (of faces) for a unit charge on each point.
    const Rows& influence() const { return influence_; }

private:
    void fill_row(const Panel& target, std::size_t row) {
        double* const out = influence_.data() + row * count();
        for (const Panel& source : mesh_.panels) {
            const bool self = &source == &target;
            const int own = self ? static_cast<int>(row - target.first) : -1;
            const std::span values(out + source.first, static_cast<std::size_t>(source.order));
            const Point to = mesh_.points[row];
            if (row < metal()) {
                potentials_of(source, outline_.space, to, own, values);
            } else if (in_line(source, target)) {
                std::ranges::fill(values, 0.0);
            } else {
                fields_of(source, outline_.space, to, mesh_.normals[row], own, values);
            }
        }
    }

    /// Charges on one line make no field across it, but their images do.
    bool in_line(const Panel& source, const Panel& target) const {
        if (outline_.space.planes > 0 || source.round() || target.round()) return false;
        const bool level = source.half.imag() == 0.0;
        if (level != (target.half.imag() == 0.0)) return false;
        return level ? source.middle.imag() == target.middle.imag()
                     : source.middle.real() == target.middle.real();
    }

    const Outline& outline_;
    const Mesh& mesh_;
    Rows influence_;
};

/// How much a face of two media turns the field across it into charge, and its change with loss.
struct Contrast {
    double value;  ///< (before - behind) / (before + behind)
    double change;
};

Contrast contrast_of(const Stretch& face) {
    const double one = face.behind.er;
    const double other = face.before.er;
    const double sum = one + other;
    const double change =
        2.0 * (one * face.before.er_loss - other * face.behind.er_loss) / (sum * sum);
    return {(other - one) / sum, change};
}

/// Solves the charges in the order: vacuum first, then dielectrics by a Schur complement, so that
/// the inductance comes for nothing.
class Solver {
public:
    Solver(const Outline& outline, const Mesh& mesh)
        : outline_(outline), mesh_(mesh), assembly_(outline, mesh) {}

    FieldSolution solved() {
        FieldSolution solution;
        solve_vacuum();
        solution.planes = outline_.space.planes > 0;
        solution.unknowns = assembly_.count() + (solution.planes ? 0 : 1);
        solution.capacitance_vacuum = symmetric(permittivity * per_conductor(vacuum_, 0));
        solution.recession = recession();
        solution.capacitance = solution.capacitance_vacuum;
        solution.capacitance_loss = MatrixXd::Zero(conductors(), conductors());
        solve_dielectric();
        solution.capacitance = symmetric(permittivity * per_conductor(charges_, 1));
        solution.capacitance_loss =
            symmetric(permittivity * (per_conductor(charges_, 2) + per_conductor(changes_, 1)));
        return solution;
    }

private:
    static constexpr double permittivity = 2.0 * std::numbers::pi * vacuum_permittivity;

    Index conductors() const { return index(outline_.conductors); }
    Index metal() const { return index(assembly_.metal()); }
    Index faces() const { return index(assembly_.faces()); }
    Index floating() const { return outline_.space.planes == 0 ? 1 : 0; }

    /// Metal at one volt for one conductor after the other; without planes the sum of all charge
    /// is nothing, which an unknown potential of everything lets it be.
    void solve_vacuum() {
        const Index n = metal() + floating();
        MatrixXd matrix = MatrixXd::Zero(n, n);
        matrix.topLeftCorner(metal(), metal()) =
            assembly_.influence().topLeftCorner(metal(), metal());
        if (floating()) {
            matrix.col(metal()).head(metal()).setOnes();
            matrix.row(metal()).head(metal()).setOnes();
        }
        factors_.compute(matrix);
        MatrixXd volts = MatrixXd::Zero(n, conductors());
        for (Index i = 0; i < metal(); ++i) volts(i, conductor_at(i)) = 1.0;
        vacuum_ = factors_.solve(volts);
    }

    void solve_dielectric() {
        charges_ = vacuum_;
        changes_ = MatrixXd::Zero(vacuum_.rows(), conductors());
        if (faces() == 0) return;
        const Index n = metal() + floating();
        MatrixXd onto_metal = MatrixXd::Ones(n, faces());
        onto_metal.topRows(metal()) = assembly_.influence().topRightCorner(metal(), faces());
        const MatrixXd response = factors_.solve(onto_metal);

        Eigen::VectorXd contrast(faces());
        Eigen::VectorXd change(faces());
        for (Index i = 0; i < faces(); ++i) {
            const Contrast c = contrast_of(assembly_.stretch(assembly_.metal() + std::size_t(i)));
            contrast[i] = c.value;
            change[i] = c.change;
        }
        const auto from_metal = assembly_.influence().bottomLeftCorner(faces(), metal());
        const auto from_faces = assembly_.influence().bottomRightCorner(faces(), faces());
        // Fields across the faces for unit charges on them, metal taking what it needs.
        MatrixXd field = from_faces;
        field.noalias() -= from_metal * response.topRows(metal());
        const MatrixXd vacuum_field = from_metal * vacuum_.topRows(metal());

        MatrixXd matrix = contrast.asDiagonal() * field;
        matrix.diagonal() += own_share();
        const Eigen::PartialPivLU<MatrixXd> schur(matrix);
        const MatrixXd bound = schur.solve(-(contrast.asDiagonal() * vacuum_field));
        charges_ -= response * bound;

        const MatrixXd whole_field = vacuum_field + field * bound;
        const MatrixXd bound_change = schur.solve(-(change.asDiagonal() * whole_field));
        changes_ = -response * bound_change;
    }

    /// Half the charge's own jump of field at each point, for a unit charge on it: pi per length.
    Eigen::VectorXd own_share() const {
        Eigen::VectorXd share(faces());
        for (std::size_t p = mesh_.metal_panels; p < mesh_.panels.size(); ++p) {
            const Panel& panel = mesh_.panels[p];
            for (std::size_t i = 0; i < static_cast<std::size_t>(panel.order); ++i) {
                share[index(panel.first - mesh_.metal_points + i)] =
                    std::numbers::pi / length_share(panel, i);
            }
        }
        return share;
    }

    /// Sums the charges of each conductor: 0 all of it, 1 the free part, 2 what loss adds to that.
    MatrixXd per_conductor(const MatrixXd& charges, int kind) const {
        MatrixXd sums = MatrixXd::Zero(conductors(), conductors());
        for (Index i = 0; i < metal(); ++i) {
            const Medium& medium = assembly_.stretch(std::size_t(i)).before;
            const double factor = kind == 0 ? 1.0 : (kind == 1 ? medium.er : medium.er_loss);
            sums.row(conductor_at(i)) += factor * charges.row(i);
        }
        return sums;
    }

    Index conductor_at(Index point) const {
        return assembly_.stretch(static_cast<std::size_t>(point)).conductor;
    }

    /// Halves of what differs are given to both; without planes rows are made to sum to nothing.
    MatrixXd symmetric(const MatrixXd& matrix) const {
        MatrixXd result = 0.5 * (matrix + matrix.transpose());
        if (floating()) {
            const auto n = static_cast<double>(conductors());
            const Eigen::VectorXd excess = result.rowwise().sum() / n;
            result.colwise() -= excess;
            result.rowwise() -= excess.transpose();
            result.array() += excess.sum() / n;
        }
        return result;
    }

    /// Hadamard's formula: walls that recede by n take n / eps0 times the square of the charge
    /// density from the capacitance. Per mm of charge and 1000 mm to the metre.
    MatrixXd recession() const {
        MatrixXd sum = MatrixXd::Zero(conductors(), conductors());
        for (std::size_t p = 0; p < mesh_.metal_panels; ++p) {
            const Panel& panel = mesh_.panels[p];
            const Index order = panel.order;
            Rows square(order, order);
            crowding_of(panel, std::span(square.data(), std::size_t(square.size())));
            const auto charge = vacuum_.middleRows(index(panel.first), order);
            sum.noalias() -= charge.transpose() * (square * charge);
        }
        return symmetric(permittivity * 2.0 * std::numbers::pi * 1000.0 * sum);
    }

    const Outline& outline_;
    const Mesh& mesh_;
    Assembly assembly_;
    Eigen::PartialPivLU<MatrixXd> factors_;
    MatrixXd vacuum_, charges_, changes_;
};

}  // namespace

FieldSolution solve_mesh(const Outline& outline, const Mesh& mesh) {
    return Solver(outline, mesh).solved();
}

}  // namespace pinfold::field
