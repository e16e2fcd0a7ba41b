#include "physics/field_system.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "physics/constants.hpp"
#include "physics/field_influence.hpp"
#include "physics/field_mirror.hpp"
#include "physics/field_panel.hpp"

namespace pinfold::field {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

Index index(std::size_t i) { return static_cast<Index>(i); }

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

/// Charges on all points for each conductor at one volt.
struct Charges {
    MatrixXd vacuum;
    MatrixXd whole;   ///< with the dielectrics
    MatrixXd change;  ///< what the loss adds to that, to first order
};

/// Solves one part in the order: vacuum first, then dielectrics by a Schur complement, so that the
/// inductance comes for nothing.
class PartSolver {
public:
    PartSolver(const Outline& outline, const Mesh& mesh, const Mirrors& mirrors, const Part& part)
        : outline_(outline), mesh_(mesh), mirrors_(mirrors), part_(part) {
        const auto is_metal = [&](std::size_t point) { return point < mesh.metal_points; };
        metal_ = std::ranges::count_if(part.points, is_metal);
        floating_ = outline.space.planes == 0 && part.even() ? 1 : 0;
    }

    /// Adds this part's charges to `charges`.
    void solve(const Rows& influence, Charges& charges) {
        const MatrixXd volts = voltages();
        if (volts.size() == 0 || volts.cwiseAbs().maxCoeff() == 0.0) return;
        gather(influence);
        solve_vacuum(volts);
        spread(vacuum_, bound_vacuum_, charges.vacuum);
        if (faces() == 0) return spread(vacuum_, bound_vacuum_, charges.whole);
        solve_dielectric();
        spread(vacuum_ - response_ * bound_, bound_, charges.whole);
        spread(-response_ * bound_change_, bound_change_, charges.change);
    }

private:
    Index count() const { return index(part_.points.size()); }
    Index faces() const { return count() - metal_; }
    Index conductors() const { return index(outline_.conductors); }
    std::size_t ways() const { return part_.signs.size(); }

    /// The share of "conductor j at one volt" that belongs to this part.
    MatrixXd voltages() const {
        MatrixXd volts = MatrixXd::Zero(metal_ + floating_, conductors());
        const double share = 1.0 / static_cast<double>(ways());
        for (Index i = 0; i < metal_; ++i) {
            for (std::size_t way = 0; way < ways(); ++way) {
                const std::size_t image = mirrors_.images[way][part_.points[std::size_t(i)]];
                const int conductor = outline_.stretches[mesh_.stretch_of[image]].conductor;
                volts(i, conductor) += share * part_.signs[way];
            }
        }
        return volts;
    }

    /// How many different images a point has.
    double images_of(std::size_t point) const {
        std::size_t same = 0;
        for (const auto& images : mirrors_.images) same += images[point] == point ? 1U : 0U;
        return static_cast<double>(ways()) / static_cast<double>(same);
    }

    /// What a charge on a point and its images, each with its sign, do to the points of the part.
    void gather(const Rows& influence) {
        std::vector<Index> rows;
        std::size_t at = 0;
        for (std::size_t i = 0; i < mirrors_.chosen.size(); ++i) {
            if (at == part_.points.size() || mirrors_.chosen[i] != part_.points[at]) continue;
            rows.push_back(index(i));
            ++at;
        }
        matrix_.resize(count(), count());
        for (Index j = 0; j < count(); ++j) {
            const std::size_t point = part_.points[std::size_t(j)];
            const double share = images_of(point) / static_cast<double>(ways());
            for (std::size_t way = 0; way < ways(); ++way) {
                const Index column = index(mirrors_.images[way][point]);
                const double factor = share * part_.signs[way];
                for (Index i = 0; i < count(); ++i) {
                    const double value = factor * influence(rows[std::size_t(i)], column);
                    matrix_(i, j) = way == 0 ? value : matrix_(i, j) + value;
                }
            }
        }
    }

    /// Without planes the sum of all charge is nothing, which an unknown potential of everything
    /// lets it be.
    void solve_vacuum(const MatrixXd& volts) {
        const Index n = metal_ + floating_;
        MatrixXd metal = MatrixXd::Zero(n, n);
        metal.topLeftCorner(metal_, metal_) = matrix_.topLeftCorner(metal_, metal_);
        if (floating_ == 1) {
            metal.col(metal_).head(metal_).setOnes();
            for (Index j = 0; j < metal_; ++j) {
                metal(metal_, j) = images_of(part_.points[std::size_t(j)]);
            }
        }
        factors_.compute(metal);
        vacuum_ = factors_.solve(volts);
        bound_vacuum_ = MatrixXd::Zero(faces(), conductors());
    }

    void solve_dielectric() {
        MatrixXd onto_metal(metal_ + floating_, faces());
        onto_metal.topRows(metal_) = matrix_.topRightCorner(metal_, faces());
        Eigen::VectorXd contrast(faces());
        Eigen::VectorXd change(faces());
        for (Index i = 0; i < faces(); ++i) {
            const std::size_t point = part_.points[std::size_t(metal_ + i)];
            const Contrast c = contrast_of(outline_.stretches[mesh_.stretch_of[point]]);
            contrast[i] = c.value, change[i] = c.change;
            if (floating_ == 1) onto_metal(metal_, i) = images_of(point);
        }
        response_ = factors_.solve(onto_metal);
        const auto from_metal = matrix_.bottomLeftCorner(faces(), metal_);
        // Fields across the faces for unit charges on them, metal taking what it needs.
        MatrixXd field = matrix_.bottomRightCorner(faces(), faces());
        field.noalias() -= from_metal * response_.topRows(metal_);
        const MatrixXd vacuum_field = from_metal * vacuum_.topRows(metal_);

        MatrixXd matrix = contrast.asDiagonal() * field;
        matrix.diagonal() += own_share();
        const Eigen::PartialPivLU<MatrixXd> schur(matrix);
        bound_ = schur.solve(-(contrast.asDiagonal() * vacuum_field));
        const MatrixXd whole_field = vacuum_field + field * bound_;
        bound_change_ = schur.solve(-(change.asDiagonal() * whole_field));
    }

    /// Half the charge's own jump of field at each point, for a unit charge on it: pi per length.
    Eigen::VectorXd own_share() const {
        Eigen::VectorXd share(faces());
        std::size_t p = mesh_.metal_panels;
        for (Index i = 0; i < faces(); ++i) {
            const std::size_t point = part_.points[std::size_t(metal_ + i)];
            while (p + 1 < mesh_.panels.size() && mesh_.panels[p + 1].first <= point) ++p;
            const Panel& panel = mesh_.panels[p];
            share[i] = std::numbers::pi / length_share(panel, point - panel.first);
        }
        return share;
    }

    void spread(const MatrixXd& metal, const MatrixXd& bound, MatrixXd& charges) const {
        for (Index i = 0; i < count(); ++i) {
            const std::size_t point = part_.points[std::size_t(i)];
            // Ways that lead to one image speak of one charge.
            const double share = images_of(point) / static_cast<double>(ways());
            for (std::size_t way = 0; way < ways(); ++way) {
                const Index to = index(mirrors_.images[way][point]);
                const double factor = share * part_.signs[way];
                if (i < metal_) {
                    charges.row(to) += factor * metal.row(i);
                } else {
                    charges.row(to) += factor * bound.row(i - metal_);
                }
            }
        }
    }

    const Outline& outline_;
    const Mesh& mesh_;
    const Mirrors& mirrors_;
    const Part& part_;
    Index metal_ = 0;
    Index floating_ = 0;
    MatrixXd matrix_, vacuum_, response_, bound_vacuum_, bound_, bound_change_;
    Eigen::PartialPivLU<MatrixXd> factors_;
};

/// From charges to what is asked of them.
class Summary {
public:
    Summary(const Outline& outline, const Mesh& mesh) : outline_(outline), mesh_(mesh) {}

    FieldSolution of(const Charges& charges) const {
        FieldSolution solution;
        solution.planes = outline_.space.planes > 0;
        solution.capacitance_vacuum = symmetric(per_conductor(charges.vacuum, 0));
        solution.recession = recession(charges.vacuum);
        solution.capacitance = symmetric(per_conductor(charges.whole, 1));
        solution.capacitance_loss =
            symmetric(per_conductor(charges.whole, 2) + per_conductor(charges.change, 1));
        return solution;
    }

private:
    static constexpr double permittivity = 2.0 * std::numbers::pi * vacuum_permittivity;

    Index conductors() const { return index(outline_.conductors); }
    const Stretch& stretch(std::size_t point) const {
        return outline_.stretches[mesh_.stretch_of[point]];
    }

    /// Sums the charges of each conductor: 0 all of it, 1 the free part, 2 what loss adds to that.
    MatrixXd per_conductor(const MatrixXd& charges, int kind) const {
        MatrixXd sums = MatrixXd::Zero(conductors(), conductors());
        for (std::size_t i = 0; i < mesh_.metal_points; ++i) {
            const Medium& medium = stretch(i).before;
            const double factor = kind == 0 ? 1.0 : (kind == 1 ? medium.er : medium.er_loss);
            sums.row(stretch(i).conductor) += factor * charges.row(index(i));
        }
        return permittivity * sums;
    }

    /// Halves of what differs are given to both; without planes rows are made to sum to nothing.
    MatrixXd symmetric(const MatrixXd& matrix) const {
        MatrixXd result = 0.5 * (matrix + matrix.transpose());
        if (outline_.space.planes == 0) {
            const Eigen::VectorXd excess =
                result.rowwise().sum() / static_cast<double>(conductors());
            const double both = excess.sum() / static_cast<double>(conductors());
            result.colwise() -= excess;
            result.rowwise() -= excess.transpose();
            result.array() += both;
            const MatrixXd rounded = result;
            result = 0.5 * (rounded + rounded.transpose());
        }
        return result;
    }

    /// Hadamard's formula: walls that recede by n take n / eps0 times the square of the charge
    /// density from the capacitance. Per mm of charge and 1000 mm to the metre.
    MatrixXd recession(const MatrixXd& charges) const {
        MatrixXd sum = MatrixXd::Zero(conductors(), conductors());
        for (std::size_t p = 0; p < mesh_.metal_panels; ++p) {
            const Panel& panel = mesh_.panels[p];
            const Index order = panel.order;
            Rows square(order, order);
            crowding_of(panel, std::span(square.data(), std::size_t(square.size())));
            const auto charge = charges.middleRows(index(panel.first), order);
            sum.noalias() -= charge.transpose() * (square * charge);
        }
        return symmetric(permittivity * 2.0 * std::numbers::pi * 1000.0 * sum);
    }

    const Outline& outline_;
    const Mesh& mesh_;
};

}  // namespace

FieldSolution solve_mesh(const Outline& outline, const Mesh& mesh) {
    const Mirrors mirrors = mirrors_of(outline, mesh);
    const Rows influence = influence_of(outline, mesh, mirrors.chosen);
    const MatrixXd none = MatrixXd::Zero(index(mesh.points.size()), index(outline.conductors));
    Charges charges{none, none, none};
    std::size_t largest = 0;
    for (const Part& part : parts_of(mirrors)) {
        PartSolver(outline, mesh, mirrors, part).solve(influence, charges);
        const bool floating = outline.space.planes == 0 && part.even();
        largest = std::max(largest, part.points.size() + (floating ? 1 : 0));
    }
    FieldSolution solution = Summary(outline, mesh).of(charges);
    solution.unknowns = largest;
    return solution;
}

}  // namespace pinfold::field
