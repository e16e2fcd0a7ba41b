#include "physics/field_space.hpp"

#include <cmath>
#include <numbers>

namespace pinfold::field {
namespace {

/// Beyond this many heights over pi the field between two planes is nothing (e^-40).
constexpr double out_of_sight = 20.0;

/// sinh(w) / w, and 1 where w is nothing.
Point sinh_over(Point w) { return std::abs(w) < 1e-4 ? 1.0 + w * w / 6.0 : std::sinh(w) / w; }

/// coth(w) - 1/w.
Point coth_less_pole(Point w) {
    return std::abs(w) < 1e-2 ? w / 3.0 - w * w * w / 45.0 : 1.0 / std::tanh(w) - 1.0 / w;
}

}  // namespace

Point Space::mirrored(Point to, int plane) const {
    return plane == 0 ? std::conj(to) : std::conj(to) + Point(0.0, 2.0 * height);
}

double Space::potential(Point to, Point from) const {
    const Point direct = to - from;
    if (planes == 0) return -0.5 * std::log(std::norm(direct));
    const Point image = to - std::conj(from);
    if (planes == 1) return 0.5 * std::log(std::norm(image) / std::norm(direct));

    const double scale = std::numbers::pi / (2.0 * height);
    const double x = scale * direct.real();
    if (std::abs(x) > out_of_sight) return 0.0;
    const double wide = std::sinh(x) * std::sinh(x);
    const double up = std::sin(scale * image.imag());
    const double down = std::sin(scale * direct.imag());
    return 0.5 * std::log((wide + up * up) / (wide + down * down));
}

Point Space::field(Point to, Point from) const {
    const Point direct = to - from;
    if (planes == 0) return 1.0 / direct;
    const Point image = to - std::conj(from);
    if (planes == 1) return 1.0 / direct - 1.0 / image;

    const double scale = std::numbers::pi / (2.0 * height);
    if (std::abs(scale * direct.real()) > out_of_sight) return 0.0;
    return scale * (1.0 / std::tanh(scale * direct) - 1.0 / std::tanh(scale * image));
}

double Space::image_potential(Point to, Point from) const {
    double sum = far_potential(to, from);
    for (int i = 0; i < planes; ++i) sum += std::log(std::abs(mirrored(to, i) - from));
    return sum;
}

Point Space::image_field(Point to, Point from) const {
    Point sum = far_field(to, from);
    for (int i = 0; i < planes; ++i) sum -= std::conj(1.0 / (mirrored(to, i) - from));
    return sum;
}

double Space::far_potential(Point to, Point from) const {
    if (planes < 2) return 0.0;
    const double scale = std::numbers::pi / (2.0 * height);
    const Point direct = to - from;
    const Point low = to - std::conj(from);
    const Point high = low - Point(0.0, 2.0 * height);
    if (std::abs(scale * direct.real()) > out_of_sight) {
        return std::log(std::abs(direct) / std::abs(low) / std::abs(high));
    }
    // sinh(low) = -sinh(high) has a zero at each image; sinh(w)/(w (w - j pi)) is what stays.
    const Point w = scale * low;
    const Point other = scale * high;
    const Point rest = std::abs(w) < std::abs(other) ? sinh_over(w) / other : -sinh_over(other) / w;
    return std::log(scale * std::abs(rest) / std::abs(sinh_over(scale * direct)));
}

Point Space::far_field(Point to, Point from) const {
    if (planes < 2) return 0.0;
    const double scale = std::numbers::pi / (2.0 * height);
    const Point direct = to - from;
    const Point low = to - std::conj(from);
    const Point high = low - Point(0.0, 2.0 * height);
    if (std::abs(scale * direct.real()) > out_of_sight) {
        return 1.0 / low + 1.0 / high - 1.0 / direct;
    }
    const Point images = std::abs(low) < std::abs(high)
                             ? coth_less_pole(scale * low) - 1.0 / (scale * high)
                             : coth_less_pole(scale * high) - 1.0 / (scale * low);
    return scale * (coth_less_pole(scale * direct) - images);
}

}  // namespace pinfold::field
