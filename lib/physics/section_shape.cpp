#include "physics/section_shape.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

SectionShape round_shape(Millimetres x, Millimetres y, Millimetres diameter) {
    const double r = diameter.value() / 2.0;
    return {x.value() - r, x.value() + r, y.value() - r, y.value() + r, true};
}

}  // namespace

std::complex<double> SectionShape::nearest(std::complex<double> p) const {
    return {std::clamp(p.real(), x_min, x_max), std::clamp(p.imag(), y_min, y_max)};
}

SectionShape shape_of(const SectionConductor& c) {
    if (c.round()) return round_shape(c.x, c.y, c.diameter);
    const double half_width = c.width.value() / 2.0;
    const double half_height = c.thickness.value() / 2.0;
    return {c.x.value() - half_width, c.x.value() + half_width, c.y.value() - half_height,
            c.y.value() + half_height};
}

SectionShape shape_of(const SectionDielectric& d) {
    if (d.round()) return round_shape(d.x, d.y, d.diameter);
    return {d.x_min.value(), d.x_max.value(), d.y_min.value(), d.y_max.value()};
}

double gap_between(const SectionShape& a, const SectionShape& b) {
    if (a.round && b.round) return std::abs(a.centre() - b.centre()) - a.radius() - b.radius();
    if (a.round) {
        const std::complex<double> near = b.nearest(a.centre());
        const double away = std::abs(near - a.centre());
        return away - a.radius();
    }
    if (b.round) return gap_between(b, a);
    const double across = std::max(a.x_min - b.x_max, b.x_min - a.x_max);
    const double up = std::max(a.y_min - b.y_max, b.y_min - a.y_max);
    return across > 0.0 && up > 0.0 ? std::hypot(across, up) : std::max(across, up);
}

double bipolar_of(double a, double b, double apart) {
    const double cosh = std::abs(apart * apart + a * a - b * b) / (2.0 * apart * a);
    return std::acosh(std::max(1.0, cosh));
}

bool within(const SectionShape& a, const SectionShape& b) {
    if (!b.round) {
        return a.x_min >= b.x_min - touching_mm && a.x_max <= b.x_max + touching_mm &&
               a.y_min >= b.y_min - touching_mm && a.y_max <= b.y_max + touching_mm;
    }
    const double reach = a.round ? std::abs(a.centre() - b.centre()) + a.radius()
                                 : std::hypot(std::max(std::abs(a.x_min - b.centre().real()),
                                                       std::abs(a.x_max - b.centre().real())),
                                              std::max(std::abs(a.y_min - b.centre().imag()),
                                                       std::abs(a.y_max - b.centre().imag())));
    return reach <= b.radius() + touching_mm;
}

double area_of(const SectionShape& shape) {
    return (shape.x_max - shape.x_min) * (shape.y_max - shape.y_min);
}

double shared_area(const SectionShape& a, const SectionShape& b) {
    const double wide = std::min(a.x_max, b.x_max) - std::max(a.x_min, b.x_min);
    const double high = std::min(a.y_max, b.y_max) - std::max(a.y_min, b.y_min);
    return wide > 0.0 && high > 0.0 ? wide * high : 0.0;
}

}  // namespace pinfold
