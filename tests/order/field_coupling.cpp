// Coupling from the field: against thin wires in air, whose field is a sum of logarithms.
#include "order/field_coupling.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>

namespace pinfold {
namespace {

constexpr double pitch_mm = 1.27, diameter_mm = 0.1;

Design wires(std::optional<Millimetres> diameter) {
    Design design;
    RibbonType type;
    type.id = "wires";
    type.kind = RibbonKind::round;
    type.pitch = Millimetres(pitch_mm);
    type.width = diameter;
    design.ribbon_types.emplace("wires", type);
    Ribbon ribbon;
    ribbon.type = "wires";
    ribbon.conductors = 20;
    design.ribbons.push_back(ribbon);
    return design;
}

/// Maxwell's capacitances of six thin wires over 2 pi eps0, the grounds at nothing and all charges
/// together nothing: V = sum of q ln(1 / distance) + a constant.
Eigen::MatrixXd capacitances(const std::vector<int>& signals) {
    constexpr int wires = 6;
    Eigen::MatrixXd system = Eigen::MatrixXd::Ones(wires + 1, wires + 1);
    system(wires, wires) = 0.0;
    for (int i = 0; i < wires; ++i) {
        for (int j = 0; j < wires; ++j) {
            const double apart = i == j ? diameter_mm / 2.0 : pitch_mm * std::abs(i - j);
            system(i, j) = -std::log(apart);
        }
    }
    const Eigen::MatrixXd charges = system.inverse();
    Eigen::MatrixXd found(signals.size(), signals.size());
    for (std::size_t i = 0; i < signals.size(); ++i) {
        for (std::size_t j = 0; j < signals.size(); ++j) {
            found(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                charges(signals[i], signals[j]);
        }
    }
    return found;
}

/// In one medium inductances are the inverse of capacitances, and both give half of the coupling.
double coupling(const std::vector<int>& signals) {
    const Eigen::MatrixXd c = capacitances(signals);
    const Eigen::MatrixXd l = c.inverse();
    const Eigen::Index n = c.rows() - 1;
    return 0.25 * (std::abs(l(0, n)) / std::sqrt(l(0, 0) * l(n, n)) +
                   std::abs(c(0, n)) / std::sqrt(c(0, 0) * c(n, n)));
}

}  // namespace

// Expected: thin wires in closed form, good to the square of radius over pitch, 0.2 %; weights are
// whole thousandths.
TEST_CASE("coupling of thin wires is that of logarithmic potentials", "[order]") {
    const Design design = wires(Millimetres(diameter_mm));
    const Coupling found = coupling_of(design, design.ribbons.front());
    CHECK(found.source == "by the field of the ribbon's section");
    const double neighbours = coupling({1, 2});
    const auto weight = [&](const std::vector<int>& signals) {
        return Approx(1000.0 * coupling(signals) / neighbours).margin(4.0);
    };
    CHECK(found.at(1, 0) == 1000);
    CHECK(found.at(2, 0) == weight({1, 2, 3}));
    CHECK(found.at(2, 1) == weight({1, 3}));
    CHECK(found.at(3, 0) == weight({1, 2, 3, 4}));
    CHECK(found.at(3, 1) == weight({1, 3, 4}));
    CHECK(found.at(3, 2) == weight({1, 4}));
}

TEST_CASE("a ribbon of unknown section is weighed by distance, and says so", "[order]") {
    const Design design = wires({});
    CHECK(coupling_of(design, design.ribbons.front()).source == "by distance and guards");
}

}  // namespace pinfold
