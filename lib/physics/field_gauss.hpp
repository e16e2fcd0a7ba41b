// Gauss-Legendre quadrature and the polynomials that pass through its points.
#pragma once

#include <array>
#include <span>

namespace pinfold::field {

constexpr int highest_order = 16;

/// The points and weights of one order on [-1, 1], from left to right.
struct GaussRule {
    int order = 0;
    std::array<double, highest_order> points{};
    std::array<double, highest_order> weights{};
    /// [j][k]: how much of Legendre's P_k the polynomial has that is 1 over its weight at point j
    /// and nothing at the others.
    std::array<std::array<double, highest_order>, highest_order> spread{};
};

/// The rule with `order` points, 1 to `highest_order`.
const GaussRule& gauss_rule(int order);

/// Legendre polynomials P_0 .. P_(n-1) at u, n the length of `values`.
void legendre(double u, std::span<double> values);

}  // namespace pinfold::field
