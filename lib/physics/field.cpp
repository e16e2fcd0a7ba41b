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

/// What two meshes in a row, the coarser of that tolerance, are not believed to be better than:
/// they may agree by chance. The error goes as the square; the factor is above what the finer
/// one's came to on sections of many kinds, held against far finer meshes. Of 1500 made at random
/// (tests/bench/estimate.cpp) 2 came out above their estimate at 0.5 %, 3 at 2 %, 10 at 0.1 %, by
/// 1.27, 1.42 and 1.79 at worst.
double least_error(double tolerance) { return 0.1 * tolerance * tolerance; }

constexpr double loosest = 0.25;  // what a mesh may be that tells anything

/// The coarser of the two meshes that should do.
double first_tolerance(double wanted_error) {
    constexpr double margin = 0.8;
    return std::clamp(std::sqrt(margin * wanted_error / least_error(1.0)), 1e-4, loosest);
}

/// Whether metal has no corners but such as the vacuum's field also sees.
bool square_alone(const field::Outline& outline) {
    const auto square = [](double sharp) { return sharp == 1.0 || sharp == 1.5; };
    return std::ranges::all_of(outline.stretches, [&](const field::Stretch& s) {
        return !s.metal() || (square(s.sharp_from) && square(s.sharp_to));
    });
}

/// The recession on a mesh of its own: at the edges of metal on a dielectric charge gathers more
/// than without it, and the square of the density is too much for the other's measure.
Eigen::MatrixXd vacuum_recession(const Section& section) {
    Section bare = section;
    bare.dielectrics.clear();
    constexpr double tolerance = 0.02;
    const field::Outline outline = field::outline_of(bare);
    return field::solve_mesh(outline, field::mesh_of(outline, tolerance)).recession;
}

}  // namespace

FieldSolution solve_field(const Section& section, double wanted_error) {
    require_solvable(section);
    const field::Outline outline = field::outline_of(section);
    double coarsest = first_tolerance(wanted_error);
    constexpr double finer = 0.55;
    field::Mesh mesh = field::mesh_of(outline, coarsest);
    field::Mesh next = field::mesh_of(outline, finer * coarsest);
    while (next.points.size() > most_points && coarsest < loosest) {
        coarsest = std::min(loosest, 2.0 * coarsest);
        mesh = field::mesh_of(outline, coarsest);
        next = field::mesh_of(outline, finer * coarsest);
    }
    if (mesh.points.size() > most_points) {
        throw InputError({{Severity::error, "section-count",
                           fmt::format("this section takes {} unknowns, more than the {} that are "
                                       "solved; leave out what stands far away",
                                       mesh.points.size(), most_points),
                           section.at}});
    }
    FieldSolution solution = field::solve_mesh(outline, mesh);
    constexpr double most_gain = 0.5;  // of one mesh over the last that is believed
    constexpr double finest = 1e-5;
    for (double tolerance = coarsest; next.points.size() <= most_points; tolerance *= finer) {
        FieldSolution fine = field::solve_mesh(outline, next);
        const double least = std::max(least_error(tolerance), most_gain * solution.error_estimate);
        fine.error_estimate = std::max(difference(solution, fine), least);
        solution = std::move(fine);
        if (solution.error_estimate <= wanted_error || finer * tolerance <= finest) break;
        next = field::mesh_of(outline, finer * finer * tolerance);
    }
    if (solution.error_estimate == 0.0) solution.error_estimate = 1.0;  // one mesh alone
    if (!square_alone(outline)) solution.recession = vacuum_recession(section);
    solution.resistance = resistances(section);
    return solution;
}

}  // namespace pinfold
