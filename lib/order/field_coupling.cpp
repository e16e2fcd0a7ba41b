#include "order/field_coupling.hpp"

#include <algorithm>
#include <cmath>

#include "check/ribbon_section.hpp"
#include "physics/field.hpp"

namespace pinfold {
namespace {

constexpr int row_size =
    coupling_reach + 3;  // a ground, two signals and what lies between, grounds

/// Of conductors 1 and 1 + distance, counted from 0, with the first ones between them ground.
double backward_coupling(const FieldSolution& field, int distance, int grounds_between) {
    std::vector<std::size_t> ground{0};
    for (int i = 0; i < row_size; ++i) {
        const bool between = i > 1 && i <= 1 + grounds_between;
        if (between || i > 1 + distance) ground.push_back(static_cast<std::size_t>(i));
    }
    const PerMetre line = per_metre(field, ground);
    const Eigen::Index other = line.capacitance.rows() - 1;
    const auto share = [&](const Eigen::MatrixXd& matrix) {
        return std::abs(matrix(0, other)) / std::sqrt(matrix(0, 0) * matrix(other, other));
    };
    return 0.25 * (share(line.inductance) + share(line.capacitance));
}

}  // namespace

Coupling coupling_of(const Design& design, const Ribbon& ribbon) {
    Ribbon row = ribbon;
    row.conductors = row_size;
    const auto section = section_of(design, row);
    if (!section) return coupling_by_distance();
    const FieldSolution field = solve_field(*section, 0.01);
    const double neighbours = backward_coupling(field, 1, 0);
    Coupling coupling{{}, "by the field of the ribbon's section"};
    int most_here = 1000;
    for (int d = 1; d <= coupling_reach; ++d) {
        int most = most_here;
        for (int g = 0; g < d; ++g) {
            const double share = backward_coupling(field, d, g) / neighbours;
            most = std::min(most, static_cast<int>(std::lround(1000.0 * share)));
            coupling.weight[static_cast<std::size_t>(d - 1)][static_cast<std::size_t>(g)] = most;
            if (g == 0) most_here = most;
        }
    }
    return coupling;
}

}  // namespace pinfold
