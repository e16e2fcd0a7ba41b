// Error of the field solver against time, on ribbons of 0.5 mm pitch with film: one line for each
// mesh, its error against a far finer mesh of the same method (which other tests hold against
// results that are not ours).
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "physics/field.hpp"
#include "physics/field_system.hpp"

namespace {

using namespace pinfold;

Section ribbon(int conductors, bool plane) {
    Section section;
    for (int i = 0; i < conductors; ++i) {
        SectionConductor c;
        c.x = Millimetres(0.5 * i), c.width = Millimetres(0.30), c.thickness = Millimetres(0.035);
        section.conductors.push_back(c);
    }
    SectionDielectric film;
    film.x_min = Millimetres(-0.5), film.x_max = Millimetres(0.5 * conductors);
    film.y_min = Millimetres(-0.1175), film.y_max = Millimetres(0.1175);
    film.er = 3.0;
    section.dielectrics = {film};
    if (plane) section.planes = {{Millimetres(-0.2175), {}}};
    return section;
}

double worst(const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
    const Eigen::VectorXd scale = other.diagonal().cwiseSqrt().cwiseInverse();
    return (scale.asDiagonal() * (one - other) * scale.asDiagonal()).cwiseAbs().maxCoeff();
}

/// The least of some runs, ms.
template <class Run>
double milliseconds(const Run& run) {
    double least = HUGE_VAL;
    for (int i = 0; i < 7; ++i) {
        const auto start = std::chrono::steady_clock::now();
        run();
        const std::chrono::duration<double, std::milli> taken =
            std::chrono::steady_clock::now() - start;
        least = std::min(least, taken.count());
    }
    return least;
}

void measure(int conductors, bool plane) {
    const Section section = ribbon(conductors, plane);
    const field::Outline outline = field::outline_of(section);
    const double fine = conductors > 30 ? 0.004 : 0.001;
    const Eigen::MatrixXd c = field::solve_mesh(outline, field::mesh_of(outline, fine)).capacitance;
    for (double tolerance : {0.4, 0.2, 0.1, 0.04}) {
        FieldSolution solution;
        const double taken = milliseconds([&] {
            const field::Outline again = field::outline_of(section);
            solution = field::solve_mesh(again, field::mesh_of(again, tolerance));
        });
        fmt::print("{:11} {:>6} {:>10} {:9.4f} {:9.3f}\n", conductors, plane ? "one" : "none",
                   solution.unknowns, 100.0 * worst(solution.capacitance, c), taken);
    }
    FieldSolution solution;
    const double taken = milliseconds([&] { solution = solve_field(section); });
    fmt::print("{:11} {:>6} {:>10} {:9.4f} {:9.3f}  both meshes, estimate {:.3f} %\n", conductors,
               plane ? "one" : "none", solution.unknowns, 100.0 * worst(solution.capacitance, c),
               taken, 100.0 * solution.error_estimate);
}

}  // namespace

int main() {
    fmt::print("{:>11} {:>6} {:>10} {:>9} {:>9}\n", "conductors", "plane", "unknowns", "error %",
               "ms");
    for (int conductors : {20, 60}) {
        for (bool plane : {false, true}) measure(conductors, plane);
    }
}
