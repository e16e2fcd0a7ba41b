#include "physics/field_part.hpp"

#include <algorithm>
#include <map>
#include <numbers>
#include <span>
#include <tuple>

#include "physics/field_crowding.hpp"

namespace pinfold::field {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

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

/// Without planes the sum of all charge is nothing, which an unknown potential of everything lets
/// it be.
Index floating_of(const Outline& outline, const Part& part) {
    return outline.space.planes == 0 && part.even() ? 1 : 0;
}

class PartSolver {
public:
    PartSolver(const Outline& outline, const Mesh& mesh, const Mirrors& mirrors, const Part& part,
               VectorXd& room)
        : outline_(outline),
          mesh_(mesh),
          mirrors_(mirrors),
          part_(part),
          metal_(part.metal),
          floating_(floating_of(outline, part)),
          faces_(part.points.count - metal_),
          matrix_(room.data(), equations_of(outline, part), equations_of(outline, part)) {}

    PartSums solve(Influence& influence) {
        matrix_.setZero();
        influence.add_to(matrix_, mirrors_, part_, floating_);
        if (floating_ == 1) add_floating();
        const Index known = metal_ + floating_;
        auto on_metal = matrix_.topLeftCorner(known, known);
        const Factors metal(on_metal);
        const MatrixXd vacuum = metal.solve(voltages());
        const Collected collected = collect();
        PartSums sums;
        sums.vacuum = collected.all * vacuum;
        sums.crowding = crowding(vacuum);
        sums.whole = sums.vacuum;
        sums.loss = MatrixXd::Zero(conductors(), conductors());
        if (faces_ > 0) add_dielectric(metal, vacuum, collected, sums);
        return sums;
    }

private:
    using Factors = Eigen::PartialPivLU<Eigen::Ref<MatrixXd>>;  // in place

    Index conductors() const { return part_.conductors.count; }

    std::size_t conductor_at(std::size_t point) const {
        return static_cast<std::size_t>(outline_.stretches[mesh_.stretch_of[point]].conductor);
    }

    /// Calls `visit` with the place and the set of every set that bears charge.
    template <class Visit>
    void each_place(const Visit& visit) const {
        for (std::size_t set = 0; set < part_.points.of_set.size(); ++set) {
            const Index place = part_.points.of_set[set];
            if (place >= 0) visit(place, set);
        }
    }

    /// The potential of everything, and the sum of all charge.
    void add_floating() {
        matrix_.col(metal_).head(metal_).setOnes();
        each_place([&](Index place, std::size_t set) {
            matrix_(metal_, place < metal_ ? place : place + 1) = mirrors_.points.sizes[set];
        });
    }

    MatrixXd voltages() const {
        MatrixXd volts = MatrixXd::Zero(metal_ + floating_, conductors());
        each_place([&](Index place, std::size_t set) {
            if (place >= metal_) return;
            const std::size_t conductor = conductor_at(mirrors_.points.chosen[set]);
            const Index column = part_.conductors.of_set[mirrors_.conductors.set_of[conductor]];
            if (column >= 0) volts(place, column) = part_.sign(mirrors_.conductors, conductor);
        });
        return volts;
    }

    /// Rows that sum the charge of chosen conductors.
    struct Collected {
        MatrixXd all;   ///< free and bound
        MatrixXd free;  ///< times the permittivity outside the metal
        MatrixXd lost;  ///< times its loss
    };

    Collected collect() const {
        const MatrixXd none = MatrixXd::Zero(conductors(), metal_ + floating_);
        Collected rows{none, none, none};
        for (std::size_t point = 0; point < mesh_.metal_points; ++point) {
            const std::size_t conductor = conductor_at(point);
            const std::size_t set = mirrors_.conductors.set_of[conductor];
            const Index row = part_.conductors.of_set[set];
            const Index place = part_.points.of_set[mirrors_.points.set_of[point]];
            if (row < 0 || place < 0 || mirrors_.conductors.chosen[set] != conductor) continue;
            const double sign = part_.sign(mirrors_.points, point);
            const Medium& medium = outline_.stretches[mesh_.stretch_of[point]].before;
            rows.all(row, place) += sign;
            rows.free(row, place) += sign * medium.er;
            rows.lost(row, place) += sign * medium.er_loss;
        }
        return rows;
    }

    void add_dielectric(const Factors& metal, const MatrixXd& vacuum, const Collected& collected,
                        PartSums& sums) {
        auto response = matrix_.topRightCorner(metal_ + floating_, faces_);
        response = metal.permutationP() * response;
        metal.matrixLU().triangularView<Eigen::UnitLower>().solveInPlace(response);
        metal.matrixLU().triangularView<Eigen::Upper>().solveInPlace(response);
        // Fields across the faces for unit charges on them, metal taking what it needs.
        const auto from_metal = matrix_.bottomLeftCorner(faces_, metal_);
        auto field = matrix_.bottomRightCorner(faces_, faces_);
        field.noalias() -= from_metal * response.topRows(metal_);
        const MatrixXd vacuum_field = from_metal * vacuum.topRows(metal_);

        const Faces faces = faces_of();
        const MatrixXd even = field(faces.even, Eigen::all);
        field = faces.contrast.asDiagonal() * field;
        field.diagonal() += faces.own;
        const Factors schur(field);
        const MatrixXd bound = schur.solve(-(faces.contrast.asDiagonal() * vacuum_field));
        const MatrixXd whole = vacuum - response * bound;
        sums.whole = collected.free * whole;
        if (faces.change.isZero(0.0)) {
            sums.loss = collected.lost * whole;
            return;
        }
        // The mean field across each face is what makes its charge, or is taken where it makes
        // none.
        MatrixXd across = -(faces.own.cwiseQuotient(faces.contrast).asDiagonal() * bound);
        across(faces.even, Eigen::all) = vacuum_field(faces.even, Eigen::all) + even * bound;
        const MatrixXd bound_change = schur.solve(-(faces.change.asDiagonal() * across));
        sums.loss = collected.lost * whole - collected.free * (response * bound_change);
    }

    /// What the faces are, each at its place.
    struct Faces {
        VectorXd contrast, change;
        VectorXd own;             ///< half the jump of field of a charge on it: pi per length
        std::vector<Index> even;  ///< those without contrast
    };

    Faces faces_of() const {
        Faces faces{VectorXd(faces_), VectorXd(faces_), VectorXd(faces_), {}};
        std::size_t p = mesh_.metal_panels;
        each_place([&](Index place, std::size_t set) {
            if (place < metal_) return;
            const std::size_t point = mirrors_.points.chosen[set];
            while (mesh_.panels[p].end() <= point) ++p;
            const Index i = place - metal_;
            const Contrast contrast = contrast_of(outline_.stretches[mesh_.stretch_of[point]]);
            faces.contrast[i] = contrast.value;
            faces.change[i] = contrast.change;
            faces.own[i] =
                std::numbers::pi / length_share(mesh_.panels[p], point - mesh_.panels[p].first);
            if (contrast.value == 0.0) faces.even.push_back(i);
        });
        return faces;
    }

    /// In how many panels a panel of metal is seen; nothing if an earlier one stands for it.
    double images_of(std::size_t p, const std::vector<std::size_t>& panel_of) const {
        double same = 0.0;
        for (const auto& way : mirrors_.points.images) {
            const std::size_t image = panel_of[way[mesh_.panels[p].first]];
            if (image < p) return 0.0;
            same += image == p ? 1.0 : 0.0;
        }
        return static_cast<double>(mirrors_.points.images.size()) / same;
    }

    MatrixXd crowding(const MatrixXd& charges) const {
        std::vector<std::size_t> panel_of(mesh_.metal_points);
        for (std::size_t p = 0; p < mesh_.metal_panels; ++p) {
            std::fill_n(panel_of.begin() + static_cast<std::ptrdiff_t>(mesh_.panels[p].first),
                        mesh_.panels[p].order, p);
        }
        std::map<std::tuple<double, double, double, int>, MatrixXd> squares;
        MatrixXd sum = MatrixXd::Zero(conductors(), conductors());
        for (std::size_t p = 0; p < mesh_.metal_panels; ++p) {
            const Panel& panel = mesh_.panels[p];
            const double images = images_of(p, panel_of);
            if (images == 0.0) continue;
            MatrixXd& square =
                squares[{panel.measure.sharp_from, panel.measure.sharp_to,
                         panel.round() ? panel.radius : std::abs(panel.half), panel.order}];
            if (square.size() == 0) {
                square.resize(panel.order, panel.order);
                crowding_of(panel, std::span(square.data(), std::size_t(square.size())));
            }
            const MatrixXd charge = charges_on(panel, charges);
            sum.noalias() += images * charge.transpose() * (square * charge);
        }
        return sum;
    }

    /// All charges of a panel, also those that others stand for.
    MatrixXd charges_on(const Panel& panel, const MatrixXd& charges) const {
        MatrixXd on = MatrixXd::Zero(panel.order, conductors());
        for (Index i = 0; i < panel.order; ++i) {
            const std::size_t point = panel.first + static_cast<std::size_t>(i);
            const Index place = part_.points.of_set[mirrors_.points.set_of[point]];
            if (place >= 0) on.row(i) = part_.sign(mirrors_.points, point) * charges.row(place);
        }
        return on;
    }

    const Outline& outline_;
    const Mesh& mesh_;
    const Mirrors& mirrors_;
    const Part& part_;
    Index metal_;
    Index floating_;
    Index faces_;
    Eigen::Map<MatrixXd> matrix_;
};

}  // namespace

Index equations_of(const Outline& outline, const Part& part) {
    return part.points.count + floating_of(outline, part);
}

PartSums solve_part(const Outline& outline, const Mesh& mesh, const Mirrors& mirrors,
                    const Part& part, Influence& influence, VectorXd& room) {
    const Index count = equations_of(outline, part);
    if (room.size() < count * count) room.resize(count * count);
    return PartSolver(outline, mesh, mirrors, part, room).solve(influence);
}

}  // namespace pinfold::field
