#include "physics/trace_heat.hpp"

#include <cassert>
#include <cmath>

namespace pinfold {

TraceRise trace_rise(Amperes current, Millimetres width, Millimetres thickness) {
    constexpr double mil2_per_mm2 = 1.0 / (0.0254 * 0.0254);
    constexpr Amperes most_current(35.0);
    constexpr Kelvins greatest_rise(100.0);
    constexpr Millimetres most_width(10.16);
    const double area = width.value() * thickness.value() * mil2_per_mm2;
    assert(area > 0.0);
    const double amperes = std::abs(current.value());
    const Kelvins rise(std::pow(amperes / (0.048 * std::pow(area, 0.725)), 1.0 / 0.44));
    return {rise, amperes <= most_current.value() && rise <= greatest_rise && width <= most_width};
}

}  // namespace pinfold
