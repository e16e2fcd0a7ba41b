#include "physics/field_crowding.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "physics/field_gauss.hpp"

namespace pinfold::field {

void crowding_of(const Panel& panel, std::span<double> values) {
    const auto order = static_cast<std::size_t>(panel.order);
    std::ranges::fill(values, 0.0);
    if (panel.round()) {
        for (std::size_t j = 0; j < order; ++j) {
            values[j * order + j] = panel.order / (2.0 * std::numbers::pi * panel.radius);
        }
        return;
    }
    // A density f(u) per u is f / slope per length; u = 1 - 2 y^(1/(2-s)) at an end of sharpness s
    // takes the slope's zero away.
    const GaussRule& rule = gauss_rule(panel.order);
    const GaussRule& fine = gauss_rule(highest_order);
    const double sharp[2] = {panel.measure.sharp_from, panel.measure.sharp_to};
    for (int end = 0; end < 2; ++end) {
        const double power = 1.0 / (2.0 - sharp[end]);
        for (std::size_t i = 0; i < highest_order; ++i) {
            const double y = 0.5 * (1.0 + fine.points[i]);
            const double in = std::pow(y, power);
            const double u = end == 0 ? in - 1.0 : 1.0 - in;
            const double weight = 0.5 * fine.weights[i] * power * in / y /
                                  (panel.measure.slope(u) * std::abs(panel.half));
            std::array<double, highest_order> p{};
            std::array<double, highest_order> basis{};
            legendre(u, std::span(p.data(), order));
            for (std::size_t j = 0; j < order; ++j) {
                for (std::size_t k = 0; k < order; ++k) basis[j] += rule.spread[j][k] * p[k];
            }
            for (std::size_t j = 0; j < order; ++j) {
                for (std::size_t k = 0; k < order; ++k) {
                    values[j * order + k] += weight * basis[j] * basis[k];
                }
            }
        }
    }
}

}  // namespace pinfold::field
