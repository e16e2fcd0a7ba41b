// How often the field solver is worse than it says: sections made at random, each solved to 2, 0.5
// and 0.1 %, its error against a far finer mesh of the same method (which tests hold against
// results that are not ours) beside its own estimate. Those that are worse are printed by number.
//
//   bench_estimate [COUNT [FIRST]]
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

#include "bench/field_error.hpp"
#include "physics/field.hpp"
#include "physics/field_system.hpp"

namespace {

using namespace pinfold;

/// What is drawn is the same on every machine.
class Draw {
public:
    explicit Draw(unsigned seed) : source_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(source_()) / 4294967296.0;
    }
    /// As likely from one to two as from ten to twenty.
    double size_between(double low, double high) {
        return std::exp(between(std::log(low), std::log(high)));
    }
    int whole(int low, int high) { return static_cast<int>(std::floor(between(low, high + 1))); }
    bool once_in(int count) { return whole(1, count) == 1; }

private:
    std::mt19937 source_;
};

/// A row of bars (equal, of whole widths, or unlike) or of wires, most in a film of one or both
/// faces, in the open, over a plane or between two.
Section drawn(unsigned seed) {
    Draw draw(seed);
    enum class Kind { equal, whole, unlike, wires };
    const auto kind = static_cast<Kind>(draw.whole(0, 3));
    const int count = draw.whole(2, 14);
    const double width = draw.between(0.1, 1.0);
    const double height =
        kind == Kind::wires ? draw.between(0.2, 0.6) : draw.size_between(0.01, 0.3);
    const double gap = draw.size_between(0.05, 1.0);
    Section section;
    double right = 0.0;
    for (int i = 0; i < count; ++i) {
        SectionConductor conductor;
        const double share = kind == Kind::whole    ? draw.whole(1, 3)
                             : kind == Kind::unlike ? draw.between(0.5, 2.0)
                                                    : 1.0;
        const double wide = kind == Kind::wires ? height : share * width;
        if (kind == Kind::wires) {
            conductor.diameter = Millimetres(height);
        } else {
            conductor.width = Millimetres(wide);
            conductor.thickness = Millimetres(height);
        }
        const double left = i == 0 ? 0.0 : right + gap * (kind == Kind::unlike ? share : 1.0);
        conductor.x = Millimetres(left + 0.5 * wide);
        right = left + wide;
        section.conductors.push_back(conductor);
    }
    const double cover = draw.size_between(0.02, 0.4);
    const double beyond = draw.size_between(0.03, 1.0);
    const double low = -0.5 * height - cover;
    if (!draw.once_in(5)) {
        SectionDielectric film;
        film.x_min = Millimetres(-beyond), film.x_max = Millimetres(right + beyond);
        film.y_min = Millimetres(low), film.y_max = Millimetres(-low);
        if (draw.once_in(3))
            film.y_max = Millimetres(0.5 * height + draw.between(0.6, 1.6) * cover);
        if (kind != Kind::wires && draw.once_in(5)) film.y_max = Millimetres(-0.5 * height);
        film.er = draw.between(2.0, 10.0);
        section.dielectrics = {film};
    }
    const int planes = draw.whole(0, 2);
    const double below = draw.once_in(2) ? 0.0 : draw.between(0.02, 0.5);
    if (planes > 0) section.planes.push_back({Millimetres(low - below), {}});
    if (planes > 1) {
        section.planes.push_back({Millimetres(-low + cover + draw.between(0.02, 0.5)), {}});
    }
    return section;
}

FieldSolution finely_solved(const Section& section) {
    const field::Outline outline = field::outline_of(section);
    field::Mesh mesh = field::mesh_of(outline, 0.01);
    constexpr std::size_t most_points = 2500;
    if (mesh.points.size() > most_points) mesh = field::mesh_of(outline, 0.03);
    return field::solve_mesh(outline, mesh);
}

}  // namespace

int main(int argc, char** argv) {
    const unsigned count = argc > 1 ? static_cast<unsigned>(std::atoi(argv[1])) : 300;
    const unsigned first = argc > 2 ? static_cast<unsigned>(std::atoi(argv[2])) : 0;
    constexpr double asked[] = {0.02, 0.005, 0.001};
    int worse[] = {0, 0, 0};
    double worst_ratio[] = {0.0, 0.0, 0.0};
    for (unsigned seed = first; seed < first + count; ++seed) {
        const Section section = drawn(seed);
        const FieldSolution exact = finely_solved(section);
        for (std::size_t i = 0; i < std::size(asked); ++i) {
            const FieldSolution solution = solve_field(section, asked[i]);
            const double error = bench::error_of(solution, exact);
            const double ratio = error / solution.error_estimate;
            worst_ratio[i] = std::max(worst_ratio[i], ratio);
            if (ratio <= 1.0) continue;
            ++worse[i];
            fmt::print("section {}: {:.4f} % under an estimate of {:.4f} %\n", seed, 100.0 * error,
                       100.0 * solution.error_estimate);
        }
    }
    for (std::size_t i = 0; i < std::size(asked); ++i) {
        fmt::print("to {:g} %: {} of {} worse than their estimate, {:.2f} times it at worst\n",
                   100.0 * asked[i], worse[i], count, worst_ratio[i]);
    }
}
