// What another program's fields came to: segments of constant charge, collocated, up to some
// thousand of them, not in this house (independent prototype); pF/m, right to 2e-5.
#include <catch2/catch.hpp>

#include "physics/constants.hpp"
#include "physics/sections.hpp"

namespace pinfold {
namespace {

using Eigen::MatrixXd;

}  // namespace

TEST_CASE("a four-way ribbon has the capacitance another method converges to", "[field]") {
    // Film 0.10 mm above and below; then a plane under another 0.10 mm of air.
    Section section = filmed_ribbon(4, 3.0);
    const FieldSolution open = solve_field(section, 0.001);
    const auto holds = [](const MatrixXd& c, int row, int column, double picofarads) {
        CAPTURE(row, column);
        CHECK(std::abs(c(row, column) * 1e12 - picofarads) < 1e-3 * c(row, row) * 1e12);
    };
    holds(open.capacitance, 0, 0, 39.1086), holds(open.capacitance, 0, 1, -30.8130);
    holds(open.capacitance, 0, 2, -3.8341), holds(open.capacitance, 0, 3, -4.4614);
    holds(open.capacitance, 1, 1, 63.1337), holds(open.capacitance, 1, 2, -28.4866);
    holds(open.capacitance_vacuum, 0, 0, 20.1361), holds(open.capacitance_vacuum, 0, 1, -13.20581);
    holds(open.capacitance_vacuum, 1, 1, 28.25977), holds(open.capacitance_vacuum, 1, 2, -11.64705);
    section.planes = {plane(-0.2175)};
    const FieldSolution over = solve_field(section, 0.001);
    holds(over.capacitance, 0, 0, 70.4056), holds(over.capacitance, 0, 1, -22.5586);
    holds(over.capacitance, 0, 2, -1.04697), holds(over.capacitance, 0, 3, -0.524447);
    holds(over.capacitance, 1, 1, 80.3296), holds(over.capacitance, 1, 2, -22.1839);
    holds(over.capacitance_vacuum, 0, 0, 36.60078), holds(over.capacitance_vacuum, 1, 1, 38.52553);
}

TEST_CASE("current crowds at the edges of two strips as another method finds", "[field]") {
    // Walls receded there: 5.57234 / mm for both conductors of the pair.
    const PerMetre line = per_metre(solve_field(ribbon(2)), {1});
    CHECK(line.recession(0, 0) / vacuum_permeability / 1000.0 == Approx(5.57234).epsilon(0.02));
}

TEST_CASE("pairs in air and film have the capacitance another method converges to", "[field]") {
    struct Row {
        double pitch, width, thickness, film_mm, picofarads, in_vacuum;
    };
    const Row row = GENERATE(Row{0.5, 0.30, 0.035, 0.0, 17.75878, 17.75878},
                             Row{0.5, 0.30, 0.050, 0.0, 18.56961, 18.56961},
                             Row{0.5, 0.35, 0.050, 0.0, 21.30309, 21.30309},
                             Row{1.0, 0.70, 0.050, 0.1, 34.6917, 19.58206});
    CAPTURE(row.width, row.thickness);
    Section section{.conductors = {strip(0, 0, row.width, row.thickness),
                                   strip(row.pitch, 0, row.width, row.thickness)}};
    const double top = row.thickness / 2.0 + row.film_mm;
    if (row.film_mm > 0.0) {
        section.dielectrics = {film(-row.pitch, 2.0 * row.pitch, -top, top, 3.0)};
    }
    const FieldSolution solution = solve_field(section, 0.001);
    CHECK(solution.capacitance(0, 0) * 1e12 == Approx(row.picofarads).epsilon(1e-3));
    CHECK(solution.capacitance_vacuum(0, 0) * 1e12 == Approx(row.in_vacuum).epsilon(1e-3));
    CHECK(solution.capacitance(0, 1) * 1e12 == Approx(-row.picofarads).epsilon(1e-3));
}

}  // namespace pinfold
