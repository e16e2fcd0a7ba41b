// What conformal mapping makes of flat lines: the ratio of complete elliptic integrals.
#pragma once

#include <cmath>

namespace pinfold {

constexpr double eta = 376.730313668;  ///< ohm, the impedance of empty space
constexpr double thin = 1e-6;          ///< mm, for strips without thickness

/// K(k) / K'(k).
inline double k_over_k_prime(double modulus) {
    return std::comp_ellint_1(modulus) / std::comp_ellint_1(std::sqrt(1.0 - modulus * modulus));
}

}  // namespace pinfold
