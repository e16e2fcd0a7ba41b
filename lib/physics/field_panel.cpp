#include "physics/field_panel.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "physics/field_gauss.hpp"

namespace pinfold::field {
namespace {

using Moments = std::array<double, highest_order>;

/// From moments against Legendre polynomials to values for a unit charge on each point.
void spread(const Panel& panel, const Moments& moments, std::span<double> values) {
    const GaussRule& rule = gauss_rule(panel.order);
    for (std::size_t j = 0; j < values.size(); ++j) {
        double sum = 0.0;
        for (std::size_t k = 0; k < values.size(); ++k) sum += rule.spread[j][k] * moments[k];
        values[j] = sum;
    }
}

/// The targets a panel is near to or far from: the point itself and what the planes make of it.
struct Targets {
    std::array<Point, 3> points;
    int count = 1;
    bool without_first = false;

    double distance_squared(Point middle) const {
        double least = HUGE_VAL;
        for (int i = without_first ? 1 : 0; i < count; ++i) {
            least = std::min(least, std::norm(points[static_cast<std::size_t>(i)] - middle));
        }
        return least;
    }
};

Targets targets_of(Point to, const Space& space, bool own) {
    Targets targets{{to}, 1 + space.mirrors(), own};
    for (int i = 0; i < space.mirrors(); ++i) {
        targets.points[static_cast<std::size_t>(i + 1)] = space.mirrored(to, i);
    }
    return targets;
}

/// A point u for t in [-1, 1] between `low` and `high`, and du/dt.
struct Step {
    double u, weight;
};

/// At a sharp end u goes as t squared, so that the place there is smooth in t.
Step step_of(const Measure& measure, double low, double high, double t) {
    const double span = high - low;
    const bool from = low == -1.0 && measure.sharp_from > 1.0;
    const bool to = high == 1.0 && measure.sharp_to > 1.0;
    if (from && to) return {0.5 * t * (3.0 - t * t), 1.5 * (1.0 - t * t)};
    const double near = 0.5 * (1.0 + t);
    const double far = 0.5 * (1.0 - t);
    if (from) return {low + span * near * near, span * near};
    if (to) return {high - span * far * far, span * far};
    return {low + span * near, 0.5 * span};
}

/// Moments of a kernel over u from `low` to `high`, halved until each part is far enough.
template <class Kernel>
void add_moments(const Source& source, const Targets& targets, const Kernel& kernel, double low,
                 double high, int depth, Moments& moments) {
    const Panel& panel = source.panel;
    const Point from = panel.at(low);
    const Point to = panel.at(high);
    const double half = 0.25 * std::norm(to - from);
    const double distance = targets.distance_squared(0.5 * (from + to)) / half;
    const int wanted = source.quadrature.points_for(distance);
    constexpr int most = Quadrature::most;
    constexpr int deepest = 40;
    if (wanted > most && depth < deepest) {
        const double middle = 0.5 * (low + high);
        add_moments(source, targets, kernel, low, middle, depth + 1, moments);
        add_moments(source, targets, kernel, middle, high, depth + 1, moments);
        return;
    }
    const auto order = static_cast<std::size_t>(panel.order);
    const GaussRule& rule = gauss_rule(std::min(most, std::max(wanted, 2) + panel.order / 2));
    std::array<double, highest_order> p{};
    for (std::size_t i = 0; i < static_cast<std::size_t>(rule.order); ++i) {
        const Step step = step_of(panel.measure, low, high, rule.points[i]);
        const double value = rule.weights[i] * step.weight * kernel(panel.at(step.u));
        legendre(step.u, std::span(p.data(), order));
        for (std::size_t k = 0; k < order; ++k) moments[k] += value * p[k];
    }
}

template <class Kernel>
void integrate(const Source& source, const Targets& targets, const Kernel& kernel,
               std::span<double> values) {
    const Panel& panel = source.panel;
    const double distance = targets.distance_squared(panel.middle) / std::norm(panel.half);
    if (source.quadrature.points_for(distance) <= panel.order) {
        for (std::size_t j = 0; j < values.size(); ++j) values[j] = kernel(source.points[j]);
        return;
    }
    Moments moments{};
    add_moments(source, targets, kernel, -1.0, 1.0, 0, moments);
    spread(panel, moments, values);
}

/// Moments of -log|place(u) - place(own)| on a panel from -1 to 1.
void add_own_moments(const Measure& measure, double own, std::size_t order, Moments& moments) {
    const double here = measure.place(own);
    const GaussRule& rule = gauss_rule(12);
    std::array<double, highest_order> p{};
    constexpr double ratio = 0.15;
    constexpr int steps = 10;
    for (double end : {-1.0, 1.0}) {
        double far = end - own;
        for (int step = 0; step < steps; ++step) {
            const double near = step + 1 == steps ? 0.0 : ratio * far;
            for (std::size_t i = 0; i < static_cast<std::size_t>(rule.order); ++i) {
                const double u = own + 0.5 * (near + far) + 0.5 * (far - near) * rule.points[i];
                const double gap = std::abs(measure.place(u) - here);
                const double weight = 0.5 * std::abs(far - near) * rule.weights[i];
                legendre(u, std::span(p.data(), order));
                for (std::size_t k = 0; k < order; ++k) {
                    moments[k] -= weight * p[k] * std::log(std::max(gap, 1e-300));
                }
            }
            far = near;
        }
    }
}

/// What each point of a panel from -1 to 1 does to itself and the others, row by row.
using OwnTable = std::array<double, highest_order * highest_order>;

OwnTable own_table(const Panel& panel) {
    OwnTable table{};
    const GaussRule& rule = gauss_rule(panel.order);
    const auto order = static_cast<std::size_t>(panel.order);
    for (std::size_t i = 0; i < order; ++i) {
        Moments moments{};
        add_own_moments(panel.measure, rule.points[i], order, moments);
        spread(panel, moments, std::span(table.data() + i * order, order));
    }
    return table;
}

/// The common measures are looked up: they depend on nothing of the section.
void own_potentials(const Panel& panel, int own, std::span<double> values) {
    struct Key {
        double from, to;
        int order;
        auto operator<=>(const Key&) const = default;
    };
    thread_local std::map<Key, OwnTable> tables;
    constexpr std::size_t most = 300;
    if (tables.size() > most) tables.clear();
    const Key key{panel.measure.sharp_from, panel.measure.sharp_to, panel.order};
    auto found = tables.find(key);
    if (found == tables.end()) found = tables.emplace(key, own_table(panel)).first;
    const double size = std::log(std::abs(panel.half));
    for (std::size_t j = 0; j < values.size(); ++j) {
        values[j] = found->second[static_cast<std::size_t>(own) * values.size() + j] - size;
    }
}

/// Sums over the modes of a circle: potential and field of each point's Fourier series.
/// A mode m goes as w^-m outside and w^m inside, w = (to - centre) / radius.
void circle_potentials(const Panel& panel, Point to, double sign, std::span<double> values) {
    const Point w = (to - panel.middle) / panel.radius;
    const double away = std::abs(w);
    const bool outside = away >= 1.0;
    const Point turn = outside ? 1.0 / w : std::conj(w);
    const double mean = -std::log(panel.radius * std::max(1.0, away));
    const int modes = panel.order / 2;
    for (std::size_t j = 0; j < values.size(); ++j) {
        const Point z = turn * std::polar(1.0, circle_angle(panel.order, static_cast<int>(j)));
        Point sum = 0.5 / modes;
        for (int m = modes - 1; m >= 1; --m) sum = sum * z + 1.0 / m;
        values[j] += sign * (mean + (sum * z).real());
    }
}

Point circle_field(const Panel& panel, Point to, int point) {
    const Point w = (to - panel.middle) / panel.radius;
    const Point spoke = std::polar(1.0, circle_angle(panel.order, point));
    const int modes = panel.order / 2;
    const bool outside = std::abs(w) >= 1.0;
    const Point z = outside ? spoke / w : w / spoke;
    Point sum = 0.5;
    for (int m = modes - 1; m >= 1; --m) sum = sum * z + 1.0;
    // Outside 1 + z + z^2 ..., over w; inside -(1 + z + ...) over the spoke.
    return (outside ? (1.0 + z * sum) / w : -sum / spoke) / panel.radius;
}

}  // namespace

Quadrature::Quadrature(double tolerance) {
    // n points err by r^-2n, r the sum of the half axes of the ellipse through the pole, here taken
    // on the line: distance = (r + 1/r) / 2 with r = tolerance^(-1/2n).
    least_[0] = HUGE_VAL;
    for (int n = 1; n <= most; ++n) {
        const double r = std::pow(tolerance, -0.5 / n);
        least_[static_cast<std::size_t>(n)] = 0.25 * (r + 1.0 / r) * (r + 1.0 / r);
    }
}

int Quadrature::points_for(double distance_squared) const {
    for (int n = 1; n <= most; ++n) {
        if (distance_squared >= least_[static_cast<std::size_t>(n)]) return n;
    }
    return 100;
}

void potentials_of(const Source& source, Point to, int own, std::span<double> values) {
    const Panel& panel = source.panel;
    const Space& space = source.space;
    if (panel.round()) {
        std::ranges::fill(values, 0.0);
        circle_potentials(panel, to, 1.0, values);
        for (int i = 0; i < space.mirrors(); ++i) {
            circle_potentials(panel, space.mirrored(to, i), -1.0, values);
        }
        if (space.planes < 2) return;
        for (std::size_t j = 0; j < values.size(); ++j) {
            values[j] += space.far_potential(to, source.points[j]);
        }
        return;
    }
    const Targets targets = targets_of(to, space, own >= 0);
    if (own < 0) {
        integrate(
            source, targets, [&](Point from) { return space.potential(to, from); }, values);
        return;
    }
    std::array<double, highest_order> images{};
    if (space.planes > 0) {
        const auto image = [&](Point from) { return space.image_potential(to, from); };
        integrate(source, targets, image, std::span(images.data(), values.size()));
    }
    own_potentials(panel, own, values);
    for (std::size_t j = 0; j < values.size(); ++j) values[j] += images[j];
}

void fields_of(const Source& source, Point to, Point normal, int own, std::span<double> values) {
    const Panel& panel = source.panel;
    const Space& space = source.space;
    const auto along = [&](Point field) {
        return normal.real() * field.real() - normal.imag() * field.imag();
    };
    if (panel.round()) {
        for (std::size_t j = 0; j < values.size(); ++j) {
            const int point = static_cast<int>(j);
            Point sum = own >= 0 ? 0.5 / (to - panel.middle) : circle_field(panel, to, point);
            for (int i = 0; i < space.mirrors(); ++i) {
                sum -= std::conj(circle_field(panel, space.mirrored(to, i), point));
            }
            if (space.planes == 2) sum += space.far_field(to, source.points[j]);
            values[j] = along(sum);
        }
        return;
    }
    const Targets targets = targets_of(to, space, own >= 0);
    if (own < 0) {
        integrate(
            source, targets, [&](Point from) { return along(space.field(to, from)); }, values);
        return;
    }
    std::ranges::fill(values, 0.0);
    if (space.planes == 0) return;
    const auto image = [&](Point from) { return along(space.image_field(to, from)); };
    integrate(source, targets, image, values);
}

}  // namespace pinfold::field
