#include "physics/field_measure.hpp"

#include <cmath>
#include <numbers>

namespace pinfold::field {
namespace {

/// std::pow takes most of its time for the last digits of logarithms on the unit circle.
Point power(Point base, double exponent) {
    return std::polar(std::pow(std::norm(base), 0.5 * exponent), exponent * std::arg(base));
}

}  // namespace

double Measure::place(double u) const {
    if (plain()) return u;
    if (sharp_from > 1.0 && sharp_to > 1.0) {
        return (u * std::sqrt(1.0 - u * u) + std::asin(u)) * 2.0 / std::numbers::pi;
    }
    if (sharp_from > 1.0) return 2.0 * std::pow(0.5 * (1.0 + u), sharp_from) - 1.0;
    return 1.0 - 2.0 * std::pow(0.5 * (1.0 - u), sharp_to);
}

double Measure::slope(double u) const {
    if (plain()) return 1.0;
    if (sharp_from > 1.0 && sharp_to > 1.0) {
        return std::sqrt(1.0 - u * u) * 4.0 / std::numbers::pi;
    }
    if (sharp_from > 1.0) return sharp_from * std::pow(0.5 * (1.0 + u), sharp_from - 1.0);
    return sharp_to * std::pow(0.5 * (1.0 - u), sharp_to - 1.0);
}

Point Measure::inverse(Point place) const {
    if (plain()) return place;
    if (sharp_from > 1.0 && sharp_to > 1.0) {
        const double side = place.real() < 0.0 ? -1.0 : 1.0;
        // place = 1 - c (1-u)^1.5 near the end; one step of Newton's method betters it.
        const double c = 8.0 * std::numbers::sqrt2 / (3.0 * std::numbers::pi);
        Point u = 1.0 - power((1.0 - side * place) / c, 2.0 / 3.0);
        const Point root = std::sqrt(1.0 - u * u);
        if (std::abs(root) > 1e-12) {
            const Point turn = root + Point(-u.imag(), u.real());  // exp(j asin u)
            const Point arc(std::arg(turn), -0.5 * std::log(std::norm(turn)));
            const Point miss = (u * root + arc) * 2.0 / std::numbers::pi - side * place;
            u -= miss / (root * 4.0 / std::numbers::pi);
        }
        return side * u;
    }
    if (sharp_from > 1.0) return 2.0 * power(0.5 * (1.0 + place), 1.0 / sharp_from) - 1.0;
    return 1.0 - 2.0 * power(0.5 * (1.0 - place), 1.0 / sharp_to);
}

}  // namespace pinfold::field
