// Error of the field solver against time, on ribbons of 0.5 mm pitch with film: one line for each
// mesh, then for `solve_field` with its own error control, then for an equal section asked again.
// Errors are the worst entry of the capacitance, or of that in vacuum, against a far finer mesh of
// the same method (which tests hold against results that are not ours); times are of the processor,
// the least of some.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>

#include "physics/field_system.hpp"
#include "physics/solved_sections.hpp"

namespace {

using namespace pinfold;

Section ribbon(int conductors, int planes) {
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
    if (planes > 0) section.planes.push_back({Millimetres(-0.2175), {}});
    if (planes > 1) section.planes.push_back({Millimetres(0.2175), {}});
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
    for (int i = 0; i < 9; ++i) {
        const std::clock_t start = std::clock();
        run();
        least = std::min(least, 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return least;
}

void measure(int conductors, int planes) {
    const Section section = ribbon(conductors, planes);
    const field::Outline outline = field::outline_of(section);
    const double fine = conductors > 30 ? 0.02 : 0.005;
    const FieldSolution exact = field::solve_mesh(outline, field::mesh_of(outline, fine));
    const auto print = [&](const FieldSolution& solution, double taken, const std::string& what) {
        const double error = std::max(worst(solution.capacitance, exact.capacitance),
                                      worst(solution.capacitance_vacuum, exact.capacitance_vacuum));
        fmt::print("{:10} {:>6} {:>8} {:8.4f} {:9.3f}  {}\n", conductors, planes, solution.unknowns,
                   100.0 * error, taken, what);
    };
    FieldSolution solution;
    for (double tolerance : {0.25, 0.2, 0.11, 0.06}) {
        const double taken = milliseconds([&] {
            const field::Outline again = field::outline_of(section);
            solution = field::solve_mesh(again, field::mesh_of(again, tolerance));
        });
        print(solution, taken, fmt::format("mesh for {}", tolerance));
    }
    const double taken = milliseconds([&] { solution = solve_field(section); });
    print(solution, taken,
          fmt::format("solve_field, estimate {:.3f} %", 100.0 * solution.error_estimate));
    SolvedSections solved;
    solved.of(section);
    const double again = milliseconds([&] { solution = solved.of(section); });
    print(solution, again, "an equal section again");
}

}  // namespace

int main() {
    fmt::print("{:>10} {:>6} {:>8} {:>8} {:>9}\n", "conductors", "planes", "unknowns", "error %",
               "ms");
    for (int conductors : {20, 40, 60}) {
        for (int planes : {0, 1, 2}) measure(conductors, planes);
    }
}
