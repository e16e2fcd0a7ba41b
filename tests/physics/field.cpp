// Identities of line theory over generated sections: no number here comes from a solver.
#include "physics/field.hpp"

#include <catch2/catch.hpp>

#include "physics/constants.hpp"
#include "physics/field_system.hpp"
#include "physics/pair_impedance.hpp"
#include "sections.hpp"

namespace pinfold {
namespace {

using Eigen::MatrixXd;

double worst(const MatrixXd& difference, const MatrixXd& against) {
    return difference.cwiseAbs().maxCoeff() / against.cwiseAbs().maxCoeff();
}

/// The worst entry against the diagonal, as the solver's own estimate means it.
double scaled(const MatrixXd& difference, const MatrixXd& against) {
    const Eigen::VectorXd scale = against.diagonal().cwiseSqrt().cwiseInverse();
    return (scale.asDiagonal() * difference * scale.asDiagonal()).cwiseAbs().maxCoeff();
}

/// Any section of a small family: unequal strips and a wire, with film, over a plane or not.
Section generated(int seed) {
    Section section;
    unsigned state = 7919U * static_cast<unsigned>(seed) + 17U;
    const auto between = [&](double low, double high) {
        state = state * 1664525U + 1013904223U;
        return low + (high - low) * static_cast<double>(state >> 8) / 16777216.0;
    };
    double x = 0.0;
    for (int i = 0; i < 3; ++i) {
        const double width = between(0.1, 0.6);
        x += width / 2.0;
        section.conductors.push_back(strip(x, between(-0.02, 0.02), width, between(0.02, 0.1)));
        x += width / 2.0 + between(0.05, 0.3);
    }
    section.conductors.push_back(wire(x + 0.2, 0.0, between(0.1, 0.14)));
    section.dielectrics = {film(-0.3, x + 0.4, -0.1, 0.1, between(1.5, 6.0), 0.01)};
    if (seed % 2 == 1) section.planes = {plane(-between(0.15, 0.4))};
    if (seed % 4 == 3) section.planes.push_back(plane(between(0.15, 0.4)));
    return section;
}

/// Three equal conductors of such a share of the pitch; film above and below, planes further off.
Section row_of(double pitch, double share, double thickness, double film_mm, int planes) {
    Section section;
    for (int i = 0; i < 3; ++i) {
        section.conductors.push_back(strip(pitch * i, 0.0, share * pitch, thickness));
    }
    const double top = thickness / 2.0 + film_mm;
    if (film_mm > 0.0) section.dielectrics = {film(-pitch, 3.0 * pitch, -top, top, 3.0)};
    if (planes > 0) section.planes.push_back(plane(-top - 0.15));
    if (planes > 1) section.planes.push_back(plane(top + 0.2));
    return section;
}

/// The same of wires, each in its own insulation.
Section wires_of(double diameter, double jacket_mm, int planes) {
    Section section;
    for (int i = 0; i < 3; ++i) {
        section.conductors.push_back(wire(1.27 * i, 0.0, diameter));
        section.dielectrics.push_back(jacket(1.27 * i, 0.0, diameter + 2.0 * jacket_mm, 3.5));
    }
    if (planes > 0) section.planes.push_back(plane(-0.8));
    return section;
}

/// The error of a solution, as its estimate means it, against a mesh some ten times finer.
double error_of(const FieldSolution& solution, const Section& section, double finer = 0.01) {
    const field::Outline outline = field::outline_of(section);
    const FieldSolution fine = field::solve_mesh(outline, field::mesh_of(outline, finer));
    return std::max(
        scaled(solution.capacitance - fine.capacitance, fine.capacitance),
        scaled(solution.capacitance_vacuum - fine.capacitance_vacuum, fine.capacitance_vacuum));
}

}  // namespace

TEST_CASE("capacitance is symmetric and positive, and free of charge without planes", "[field]") {
    const int seed = GENERATE(range(0, 8));
    CAPTURE(seed);
    const FieldSolution solution = solve_field(generated(seed));
    CHECK(solution.error_estimate <= 0.005);
    CHECK(solution.capacitance == solution.capacitance.transpose());
    if (!solution.planes) {
        CHECK(solution.capacitance.rowwise().sum().cwiseAbs().maxCoeff() < 1e-22);
    }
    const PerMetre line = per_metre(solution, {3});
    for (const MatrixXd& matrix :
         {line.capacitance, line.capacitance_vacuum, line.capacitance_loss, line.inductance,
          line.recession, line.resistance(Hertz(1e9)), line.resistance(Hertz(1e3))}) {
        const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(matrix);
        CHECK(eigen.eigenvalues().minCoeff() > 0.0);
        CHECK(matrix == matrix.transpose());
    }
}

TEST_CASE("recession is as right as is told", "[field]") {
    const int seed = GENERATE(range(0, 8));
    CAPTURE(seed);
    const Section section = generated(seed);
    const MatrixXd recession = solve_field(section).recession;
    Section bare = section;  // the skin's current is that of the vacuum's field
    bare.dielectrics.clear();
    const field::Outline outline = field::outline_of(bare);
    const MatrixXd fine = field::solve_mesh(outline, field::mesh_of(outline, 0.001)).recession;
    CHECK(scaled(recession - fine, -fine) < recession_error);  // receding takes capacitance
}

TEST_CASE("every mode is as slow as some medium between air and film", "[field]") {
    const int seed = GENERATE(range(0, 8));
    CAPTURE(seed);
    const Section section = generated(seed);
    const PerMetre line = per_metre(solve_field(section), {3});
    const Eigen::GeneralizedSelfAdjointEigenSolver<MatrixXd> modes(line.capacitance,
                                                                   line.capacitance_vacuum);
    CHECK(modes.eigenvalues().minCoeff() >= 1.0);
    CHECK(modes.eigenvalues().maxCoeff() <= section.dielectrics[0].er * 1.002);
}

TEST_CASE("film with the permittivity of air changes nothing", "[field]") {
    const FieldSolution solution = solve_field(filmed_ribbon(4, 1.0));
    CHECK(worst(solution.capacitance - solution.capacitance_vacuum, solution.capacitance) < 1e-9);
}

TEST_CASE("a section filled between its planes has C.L = mu eps and its film's loss", "[field]") {
    Section section = ribbon(3);
    section.dielectrics = {film(-20.0, 21.0, -0.2, 0.3, 3.0, 0.02)};
    section.planes = {plane(-0.2), plane(0.3)};
    const FieldSolution solution = solve_field(section);
    CHECK(worst(solution.capacitance - 3.0 * solution.capacitance_vacuum, solution.capacitance) <
          1e-4);
    CHECK(worst(solution.capacitance_loss - 0.02 * solution.capacitance,
                solution.capacitance_loss) < 1e-4);
}

TEST_CASE("loss is what a small rise of each permittivity would add", "[field]") {
    // First order in the loss tangent, by differences of two solved sections.
    Section section = filmed_ribbon(3, 3.0, 0.01);
    section.dielectrics.push_back(film(-0.5, 1.5, 0.1175, 0.3, 4.0, 0.02));
    const MatrixXd loss = solve_field(section, 0.001).capacitance_loss;
    section.dielectrics[0].er = 3.0 * (1.0 + 0.01 * 0.01);
    section.dielectrics[1].er = 4.0 * (1.0 + 0.01 * 0.02);
    const MatrixXd up = solve_field(section, 0.001).capacitance;
    section.dielectrics[0].er = 3.0 * (1.0 - 0.01 * 0.01);
    section.dielectrics[1].er = 4.0 * (1.0 - 0.01 * 0.02);
    const MatrixXd down = solve_field(section, 0.001).capacitance;
    CHECK(worst((up - down) / 0.02 - loss, loss) < 1e-3);
}

TEST_CASE("scale, mirror and order of the conductors do not matter", "[field]") {
    const int seed = GENERATE(0, 1, 3);
    CAPTURE(seed);
    const Section section = generated(seed);
    const MatrixXd expected = solve_field(section).capacitance;

    Section large = section;
    for (SectionConductor& c : large.conductors) {
        c.x = 7.0 * c.x, c.y = 7.0 * c.y, c.width = 7.0 * c.width;
        c.thickness = 7.0 * c.thickness, c.diameter = 7.0 * c.diameter;
    }
    for (SectionDielectric& d : large.dielectrics) {
        d.x_min = 7.0 * d.x_min, d.x_max = 7.0 * d.x_max;
        d.y_min = 7.0 * d.y_min, d.y_max = 7.0 * d.y_max;
    }
    for (SectionPlane& p : large.planes) p.y = 7.0 * p.y;
    CHECK(worst(solve_field(large).capacitance - expected, expected) < 1e-6);

    Section mirrored = section;
    for (SectionConductor& c : mirrored.conductors) c.x = -1.0 * c.x, c.y = -1.0 * c.y;
    for (SectionDielectric& d : mirrored.dielectrics) {
        const SectionDielectric was = d;
        d.x_min = -1.0 * was.x_max, d.x_max = -1.0 * was.x_min;
        d.y_min = -1.0 * was.y_max, d.y_max = -1.0 * was.y_min;
    }
    for (SectionPlane& p : mirrored.planes) p.y = -1.0 * p.y;
    CHECK(worst(solve_field(mirrored).capacitance - expected, expected) < 1e-6);

    Section turned = section;
    std::swap(turned.conductors[0], turned.conductors[3]);
    const std::vector<int> order{3, 1, 2, 0};
    const MatrixXd back = solve_field(turned).capacitance(order, order);
    CHECK(worst(back - expected, expected) < 1e-6);
}

// Seen to take minutes before: what is 1 um wide lost its own corners in the digits of 5 m.
TEST_CASE("where a section stands does not matter", "[field]") {
    const auto tiny_at = [](double x, double y) {
        Section section;
        for (int i = 0; i < 4; ++i) {
            section.conductors.push_back(strip(x + 0.001 * i, y, 0.0006, 0.0001));
        }
        section.dielectrics = {film(x - 0.001, x + 0.004, y - 0.0003, y + 0.0003, 3.2)};
        return solve_field(section, 0.001);
    };
    const FieldSolution near = tiny_at(0.0, 0.0);
    const FieldSolution far = tiny_at(5000.0, -700.0);
    CHECK(far.unknowns == near.unknowns);
    CHECK(worst(far.capacitance - near.capacitance, near.capacitance) < 1e-6);
}

TEST_CASE("two meshes are solved however many conductors there are", "[field]") {
    // Seen to fail before: the second mesh was too large, and the error told was 100 %.
    const FieldSolution solution = solve_field(filmed_ribbon(200, 3.2), 0.001);
    CHECK(solution.error_estimate < 0.01);
}

TEST_CASE("the error is below its estimate, held against a much finer solution", "[field]") {
    // Two in a hundred may be: the estimate is one of a convergence seen, not a bound proved.
    int above = 0;
    for (int seed = 0; seed < 12; ++seed) {
        CAPTURE(seed);
        const Section section = generated(seed);
        const FieldSolution fine = solve_field(section, 0.0004);
        for (double wanted : {0.02, 0.005}) {
            const FieldSolution solution = solve_field(section, wanted);
            const double error =
                std::max(scaled(solution.capacitance - fine.capacitance, fine.capacitance),
                         scaled(solution.capacitance_vacuum - fine.capacitance_vacuum,
                                fine.capacitance_vacuum));
            CHECK(solution.error_estimate <= wanted);
            CHECK(error <= wanted);
            above += error > solution.error_estimate ? 1 : 0;
        }
    }
    CHECK(above <= 1);
}

// The mesh of the reference is held against another method in field_other_method.cpp and exact
// results in tests/published; here it is only far finer. Gaps down to a third of the metal's
// thickness.
TEST_CASE("what is asked for by default is never worse than its estimate", "[field]") {
    const int planes = GENERATE(0, 1, 2);
    const double film_mm = GENERATE(0.0, 0.03, 0.3);
    for (const double pitch : {0.3, 0.5, 1.27}) {
        for (const double share : {0.5, 0.7, 0.9}) {
            for (const double thickness : {0.035, 0.1}) {
                CAPTURE(planes, film_mm, pitch, share, thickness);
                const Section section = row_of(pitch, share, thickness, film_mm, planes);
                const FieldSolution solution = solve_field(section);
                CHECK(error_of(solution, section) <= solution.error_estimate);
            }
        }
    }
}

// Seen to fail before walls and the faces on them were given what the thinness asks for: two
// conductors on a film of 1 um erred by 0.65 % under an estimate of 0.40.
TEST_CASE("very thin film is never worse than its estimate", "[field]") {
    for (const double thin : {0.001, 0.003}) {
        for (const double width : {0.3, 1.0}) {
            CAPTURE(thin, width);
            Section section;
            section.conductors = {strip(0.0, 0.0, width, 0.035),
                                  strip(width + 0.2, 0.0, width, 0.035)};
            const double right = 2.0 * width + 0.5;
            for (const double top : {-0.0175, 0.0175 + thin}) {  // under, and around
                section.dielectrics = {film(-0.5, right, -0.0175 - thin, top, 3.0)};
                const FieldSolution solution = solve_field(section);
                CHECK(error_of(solution, section, 0.005) <= solution.error_estimate);
            }
            section.conductors.pop_back();
            section.dielectrics = {film(-0.5, right, -0.0175 - thin, -0.0175, 3.0)};
            section.planes = {plane(-0.2)};
            const FieldSolution solution = solve_field(section);
            CHECK(error_of(solution, section, 0.005) <= solution.error_estimate);
        }
    }
}

// Before, the first of all erred by 0.47 % under an estimate of 0.40.
TEST_CASE("a bar and a wire are never worse than their estimate", "[field]") {
    for (const double diameter : {0.1, 0.3, 0.6}) {
        for (const double gap_to_radius : {1.0, 0.5, 2.0}) {
            for (const double width : {0.1, 0.3, 1.0}) {
                CAPTURE(diameter, gap_to_radius, width);
                const double up = 0.05 + 0.5 * diameter * (1.0 + gap_to_radius);
                Section section;
                section.conductors = {strip(0.0, 0.0, width, 0.1), wire(0.0, up, diameter)};
                const FieldSolution solution = solve_field(section);
                CHECK(error_of(solution, section, 0.005) <= solution.error_estimate);
            }
        }
    }
}

TEST_CASE("round wires are never worse than their estimate", "[field]") {
    const int planes = GENERATE(0, 1);
    for (const double diameter : {0.3, 0.6, 0.9}) {
        for (const double jacket_mm : {0.03, 0.17}) {
            CAPTURE(planes, diameter, jacket_mm);
            const Section section = wires_of(diameter, jacket_mm, planes);
            const FieldSolution solution = solve_field(section);
            CHECK(error_of(solution, section) <= solution.error_estimate);
        }
    }
}

// Seen to fail before covers of more than 3 % of a wall, and conductors in unlike media, were given
// more points: 6 of the 72, by 0.62 % under an estimate of 0.40; of the wires below 11 of 27.
TEST_CASE("metal under or on a thin cover is never worse than its estimate", "[field]") {
    const double cover = GENERATE(0.03, 0.05, 0.15);
    const double er = GENERATE(3.0, 9.0);
    for (const double width : {0.3, 1.0}) {
        for (const double thickness : {0.01, 0.035, 0.2}) {
            CAPTURE(cover, er, width, thickness);
            Section section;
            for (int i = 0; i < 3; ++i) {
                section.conductors.push_back(strip(i * (width + 0.25), 0.0, width, thickness));
            }
            const double left = -0.5 * width - 0.5;
            const double right = 2.5 * width + 1.0;
            const double face = 0.5 * thickness;
            for (const double top : {-face, face + cover}) {  // on a board, and in film
                section.dielectrics = {film(left, right, -face - cover, top, er)};
                const FieldSolution solution = solve_field(section);
                CHECK(error_of(solution, section) <= solution.error_estimate);
            }
        }
    }
}

TEST_CASE("wires in one film are never worse than their estimate", "[field]") {
    const double er = GENERATE(3.0, 5.0, 9.0);
    for (const double diameter : {0.2, 0.4, 0.6}) {
        for (const double cover : {0.02, 0.03, 0.1}) {
            CAPTURE(er, diameter, cover);
            const double face = 0.5 * diameter + cover;
            const Section section{
                .conductors = {wire(0.0, 0.0, diameter), wire(1.27, 0.0, diameter),
                               wire(2.54, 0.0, diameter)},
                .dielectrics = {film(-0.6, 3.14, -face, face, er)}};
            const FieldSolution solution = solve_field(section);
            CHECK(error_of(solution, section) <= solution.error_estimate);
        }
    }
}

// Two meshes that gave a wire the same points agreed by chance: 2.2 % under an estimate of 0.6.
TEST_CASE("wires solved coarsely are never worse than their estimate", "[field]") {
    for (const double diameter : {0.2, 0.4, 0.6}) {
        for (const double gap : {0.05, 0.1, 0.2}) {
            CAPTURE(diameter, gap);
            Section section;
            for (int i = 0; i < 4; ++i) {
                section.conductors.push_back(wire(i * (diameter + gap), 0.0, diameter));
            }
            const FieldSolution solution = solve_field(section, 0.02);
            CHECK(error_of(solution, section) <= solution.error_estimate);
        }
    }
}

TEST_CASE("faces over equal conductors get equal panels", "[field]") {
    // So that what one panel does to another is worked out once. Ends of the film apart.
    const int conductors = GENERATE(7, 19, 20);
    CAPTURE(conductors);
    const field::Outline outline = field::outline_of(filmed_ribbon(conductors, 3.0));
    const field::Mesh mesh = field::mesh_of(outline, 0.2);
    int whole = 0;
    for (std::size_t p = mesh.metal_panels; p < mesh.panels.size(); ++p) {
        const double length = mesh.panels[p].length();
        whole += mesh.panels[p].half.imag() == 0.0 && std::abs(length - 0.5) < 1e-9 ? 1 : 0;
    }
    CHECK(whole >= 2 * (conductors - 3));
}

TEST_CASE("an unequal loss between equal permittivities is felt", "[field]") {
    // Two films of one permittivity, one of them lossy: as one film whose half alone is lossy, the
    // sum of both halves' losses is that of the whole; first order, so that they add up.
    const auto loss_of = [](double upper, double lower) {
        Section section = ribbon(3);
        section.conductors = {strip(0, 0.02, 0.3, 0.035), strip(0.5, 0.02, 0.3, 0.035)};
        section.dielectrics = {film(-0.5, 1.0, -0.02, 0.15, 3.0, upper),
                               film(-0.5, 1.0, -0.15, -0.02, 3.0, lower)};
        return solve_field(section, 0.001).capacitance_loss;
    };
    const MatrixXd both = loss_of(0.01, 0.01);
    CHECK(worst(loss_of(0.01, 0.0) + loss_of(0.0, 0.01) - both, both) < 2e-3);
}

TEST_CASE("a far plane does not change a pair", "[field]") {
    Section section = ribbon(2);
    const double open = solve_field(section).capacitance(0, 0);
    section.planes = {plane(-50.0)};
    const PairImpedance pair = pair_impedance(per_metre(solve_field(section), {}), 0, 1);
    CHECK(pair.z_diff == Approx(1.0 / (light_speed * open)).epsilon(1e-4));
}

}  // namespace pinfold
