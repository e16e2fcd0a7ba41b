#include "physics/field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/finding.hpp"
#include "physics/conductor.hpp"
#include "physics/field_system.hpp"

namespace pinfold {
namespace {

Eigen::VectorXd resistances(const Section& section) {
    Eigen::VectorXd ohms(static_cast<Eigen::Index>(section.conductors.size()));
    for (std::size_t i = 0; i < section.conductors.size(); ++i) {
        const SectionConductor& conductor = section.conductors[i];
        const double area =
            conductor.round()
                ? std::numbers::pi / 4.0 * conductor.diameter.value() * conductor.diameter.value()
                : conductor.width.value() * conductor.thickness.value();
        ohms[static_cast<Eigen::Index>(i)] =
            dc_resistance(SquareMillimetres(area), Millimetres(1000.0), Celsius(20.0)).value();
    }
    return ohms;
}

/// More points than this are not meshed: memory and time grow with their square and cube.
constexpr std::size_t most_points = 6000;

/// The worst entry of what two matrices differ by, against its diagonals.
double difference(const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
    const Eigen::VectorXd scale = other.diagonal().cwiseSqrt().cwiseInverse();
    return (scale.asDiagonal() * (one - other) * scale.asDiagonal()).cwiseAbs().maxCoeff();
}

double difference(const FieldSolution& one, const FieldSolution& other) {
    return std::max(difference(one.capacitance, other.capacitance),
                    difference(one.capacitance_vacuum, other.capacitance_vacuum));
}

}  // namespace

FieldSolution solve_field(const Section& section, double wanted_error) {
    require_solvable(section);
    const field::Outline outline = field::outline_of(section);
    constexpr double coarsest = 0.2;
    constexpr double finer = 0.2;
    constexpr double finest = 1e-5;
    field::Mesh mesh = field::mesh_of(outline, coarsest);
    if (mesh.points.size() > most_points) {
        throw InputError({{Severity::error, "section-count",
                           fmt::format("this section takes {} unknowns, more than the {} that are "
                                       "solved; leave out what stands far away",
                                       mesh.points.size(), most_points),
                           section.at}});
    }
    FieldSolution solution = field::solve_mesh(outline, mesh);
    solution.error_estimate = 1.0;
    for (double tolerance = coarsest * finer; tolerance > finest; tolerance *= finer) {
        mesh = field::mesh_of(outline, tolerance);
        if (mesh.points.size() > most_points) break;
        FieldSolution fine = field::solve_mesh(outline, mesh);
        fine.error_estimate = difference(solution, fine);
        solution = std::move(fine);
        if (solution.error_estimate <= wanted_error) break;
    }
    solution.resistance = resistances(section);
    return solution;
}

}  // namespace pinfold
