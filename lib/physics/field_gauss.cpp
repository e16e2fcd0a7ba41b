#include "physics/field_gauss.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

namespace pinfold::field {
namespace {

/// Newton's method from Chebyshev's points; Abramowitz & Stegun 25.4.29.
GaussRule made(int order) {
    GaussRule rule{order, {}, {}, {}};
    std::array<double, highest_order + 1> p{};
    const auto n = static_cast<std::size_t>(order);
    for (std::size_t i = 0; i < n; ++i) {
        double u = -std::cos(std::numbers::pi * (static_cast<double>(i) + 0.75) / (order + 0.5));
        double slope = 1.0;
        for (int step = 0; step < 8; ++step) {
            legendre(u, std::span(p.data(), n + 1));
            slope = order * (u * p[n] - p[n - 1]) / (u * u - 1.0);
            u -= p[n] / slope;
        }
        rule.points[i] = 2 * i + 1 == n ? 0.0 : u;
        rule.weights[i] = 2.0 / ((1.0 - u * u) * slope * slope);
        legendre(rule.points[i], std::span(p.data(), n));
        for (std::size_t k = 0; k < n; ++k) {
            rule.spread[i][k] = (static_cast<double>(k) + 0.5) * p[k];
        }
    }
    return rule;
}

std::array<GaussRule, highest_order + 1> all_made() {
    std::array<GaussRule, highest_order + 1> rules;
    for (int order = 1; order <= highest_order; ++order) {
        rules[static_cast<std::size_t>(order)] = made(order);
    }
    return rules;
}

}  // namespace

const GaussRule& gauss_rule(int order) {
    static const std::array<GaussRule, highest_order + 1> rules = all_made();
    assert(order >= 1 && order <= highest_order);
    return rules[static_cast<std::size_t>(order)];
}

void legendre(double u, std::span<double> values) {
    double before = 0.0;
    double now = 1.0;
    for (std::size_t k = 0; k < values.size(); ++k) {
        values[k] = now;
        const auto n = static_cast<double>(k);
        const double next = ((2.0 * n + 1.0) * u * now - n * before) / (n + 1.0);
        before = now;
        now = next;
    }
}

}  // namespace pinfold::field
