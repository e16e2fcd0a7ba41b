#include "physics/field.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

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

/// The worst entry of what two matrices differ by, against its diagonals.
double difference(const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
    const Eigen::VectorXd scale = other.diagonal().cwiseSqrt().cwiseInverse();
    return (scale.asDiagonal() * (one - other) * scale.asDiagonal()).cwiseAbs().maxCoeff();
}

}  // namespace

FieldSolution solve_field(const Section& section, double wanted_error) {
    require_solvable(section);
    const field::Outline outline = field::outline_of(section);
    constexpr std::size_t most_unknowns = 4000;
    double tolerance = 0.2;
    FieldSolution coarse = field::solve_mesh(outline, field::mesh_of(outline, tolerance));
    for (;;) {
        tolerance *= 0.2;
        const field::Mesh mesh = field::mesh_of(outline, tolerance);
        FieldSolution fine = field::solve_mesh(outline, mesh);
        fine.error_estimate =
            std::max(difference(coarse.capacitance, fine.capacitance),
                     difference(coarse.capacitance_vacuum, fine.capacitance_vacuum));
        if (fine.error_estimate <= wanted_error || fine.unknowns > most_unknowns) {
            fine.resistance = resistances(section);
            return fine;
        }
        coarse = std::move(fine);
    }
}

}  // namespace pinfold
