#include "physics/field_sharpness.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace pinfold::field {
namespace {

/// Where no metal is: around a square corner of one medium in another.
///
/// The milder of the fields even and odd about the diagonal solves r tan(a pi/4) = -tan(3 a pi/4)
/// with r the greater ratio of the permittivities; derived from the same conditions.
double dielectric_sharpness(const std::array<Filling, 4>& quarters) {
    std::array<double, 4> er;
    for (std::size_t i = 0; i < 4; ++i) er[i] = quarters[i].medium.er;
    std::ranges::sort(er);
    if (er[0] == er[3]) return 1.0;
    if (er[1] != er[2] || (er[0] != er[1] && er[2] != er[3])) return 1.2;  // three media
    if (er[0] == er[1] && er[2] == er[3]) return 1.0;
    const double ratio = er[3] / er[0];
    double low = 2.0 / 3.0 + 1e-9;
    double high = 1.0;
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        const double turn = middle * std::numbers::pi / 4.0;
        (ratio * std::tan(turn) + std::tan(3.0 * turn) < 0.0 ? low : high) = middle;
    }
    return 1.0 / low;
}

}  // namespace

/// The potential is a sum of sin and cos of a times the angle in each quarter, nothing on the
/// metal, itself and er times its slope going on from quarter to quarter; a is the least that fits.
/// Source: J. Meixner, "The behavior of electromagnetic fields at edges", 1972; from memory.
double sharpness(const std::array<Filling, 4>& quarters) {
    int metal = 0;
    int last = -1;
    for (int i = 0; i < 4; ++i) {
        if (quarters[static_cast<std::size_t>(i)].conductor < 0) continue;
        ++metal;
        last = i;
    }
    if (metal == 0) return dielectric_sharpness(quarters);
    if (metal != 1) return 1.0;
    const auto medium = [&](int i) {
        return quarters[static_cast<std::size_t>((last + i) % 4)].medium.er;
    };
    if (medium(1) == medium(2) && medium(2) == medium(3)) return 1.5;
    const auto end_value = [&](double a) {
        const double turn = a * std::numbers::pi / 2.0;
        double value = 0.0;
        double flux = 1.0;
        for (int i = 1; i < 4; ++i) {
            const double er = medium(i);
            const double next = std::cos(turn) * value + std::sin(turn) * flux / er;
            flux = std::cos(turn) * flux - er * std::sin(turn) * value;
            value = next;
        }
        return value;
    };
    double low = 0.02;
    double high = 0.04;
    while (high < 1.0 && end_value(high) > 0.0) low = std::exchange(high, high + 0.02);
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        (end_value(middle) > 0.0 ? low : high) = middle;
    }
    return std::clamp(1.0 / low, 1.0, 1.95);
}

}  // namespace pinfold::field
