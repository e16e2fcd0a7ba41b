#include "physics/validity.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

Millimetres across(const SectionConductor& conductor) {
    return std::max(conductor.width, conductor.diameter);
}

/// From the nearest plane to the face towards it.
Millimetres height_of(const SectionConductor& conductor, const Section& section) {
    const double half = 0.5 * std::max(conductor.thickness, conductor.diameter).value();
    double least = HUGE_VAL;
    for (const SectionPlane& plane : section.planes) {
        least = std::min(least, std::abs((conductor.y - plane.y).value()) - half);
    }
    return Millimetres(least);
}

}  // namespace

Millimetres field_span(const Section& section) {
    double left = HUGE_VAL, right = -HUGE_VAL, widest = 0.0;
    for (const SectionConductor& conductor : section.conductors) {
        const Millimetres half = 0.5 * across(conductor);
        left = std::min(left, (conductor.x - half).value());
        right = std::max(right, (conductor.x + half).value());
        if (section.planes.empty()) continue;
        const Millimetres with_field = across(conductor) + 2.0 * height_of(conductor, section);
        widest = std::max(widest, with_field.value());
    }
    return Millimetres(section.planes.empty() ? right - left : widest);
}

Hertz quasi_static_limit(Millimetres span, double slowest) {
    constexpr double share_of_wave = 0.15;
    return Hertz(share_of_wave / (slowest * 1e-3 * span.value()));
}

Hertz quasi_static_limit(const Section& section, const PerMetre& line) {
    const Eigen::MatrixXd squares = line.inductance * line.capacitance;
    return quasi_static_limit(field_span(section),
                              std::sqrt(squares.eigenvalues().real().maxCoeff()));
}

}  // namespace pinfold
