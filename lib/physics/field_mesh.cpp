#include "physics/field_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "physics/field_gauss.hpp"

namespace pinfold::field {
namespace {

double real_of(Point p) { return p.real(); }

/// Sum of the half axes of the ellipse through w with foci -1 and 1.
double ellipse_through(Point w) {
    const double both = 0.5 * (std::abs(w - 1.0) + std::abs(w + 1.0));
    return both + std::sqrt(std::max(0.0, both * both - 1.0));
}

/// The corners and circles a charge has to look out for.
struct Surroundings {
    std::vector<Point> corners;
    std::vector<Stretch> circles;
};

class Mesher {
public:
    Mesher(const Outline& outline, double tolerance)
        : outline_(outline), wanted_(std::log(1.0 / tolerance)) {
        mesh_.tolerance = tolerance;
        const auto add_corner = [&](Point corner) {
            surroundings_.corners.push_back(corner);
            for (int i = 0; i < outline.space.mirrors(); ++i) {
                surroundings_.corners.push_back(outline.space.mirrored(corner, i));
            }
        };
        for (const Stretch& stretch : outline.stretches) {
            if (stretch.round()) {
                add_circle(stretch);
                continue;
            }
            if (stretch.sharp_from > 1.0) add_corner(stretch.from);
            if (stretch.sharp_to > 1.0) add_corner(stretch.to);
        }
        const auto less = [](Point a, Point b) {
            return a.real() != b.real() ? a.real() < b.real() : a.imag() < b.imag();
        };
        find_cuts();
        std::ranges::sort(surroundings_.corners, less);
        std::vector<Point>& corners = surroundings_.corners;
        corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    }

    Mesh meshed() {
        for (std::size_t i = 0; i < outline_.stretches.size(); ++i) {
            const Stretch& stretch = outline_.stretches[i];
            stretch_ = i;
            if (stretch.round()) {
                add_round(stretch);
            } else {
                split_ends(stretch);
            }
            if (stretch.metal()) {
                mesh_.metal_panels = mesh_.panels.size();
                mesh_.metal_points = mesh_.points.size();
            }
        }
        return std::move(mesh_);
    }

private:
    void add_circle(const Stretch& stretch) {
        surroundings_.circles.push_back(stretch);
        for (int i = 0; i < outline_.space.mirrors(); ++i) {
            Stretch image = stretch;
            image.centre = outline_.space.mirrored(stretch.centre, i);
            surroundings_.circles.push_back(image);
        }
    }

    /// Only measures that are sharp at one end, or square at both, are known.
    void split_ends(const Stretch& stretch) {
        const Measure measure{stretch.sharp_from, stretch.sharp_to};
        const bool one_end = measure.sharp_from == 1.0 || measure.sharp_to == 1.0;
        if (one_end || (measure.sharp_from == 1.5 && measure.sharp_to == 1.5)) {
            split(stretch.from, stretch.to, measure, 0);
        } else {
            halve(stretch.from, stretch.to, measure, 0);
        }
    }

    void halve(Point from, Point to, const Measure& measure, int depth) {
        const Point middle = cut_of(from, to);
        split(from, middle, {measure.sharp_from, 1.0}, depth + 1);
        split(middle, to, {1.0, measure.sharp_to}, depth + 1);
    }

    /// The middle, or on a level stretch the nearest place over the middle of a conductor or of a
    /// gap: so faces over equal conductors at equal pitch get equal panels. Of two places as near
    /// the outer one, that the mesh be its own mirror image where the section is.
    Point cut_of(Point from, Point to) const {
        const Point middle = 0.5 * (from + to);
        if (from.imag() != to.imag()) return middle;
        const double x = middle.real();
        const double reach = 0.25 * (to.real() - from.real());
        double best = 1.0;
        Point cut = middle;
        const auto begin = std::ranges::lower_bound(cuts_, x - reach);
        for (auto at = begin; at != cuts_.end() && *at < x + reach; ++at) {
            const double away = std::abs(*at - x) / reach;
            const bool outer = std::abs(*at - centre_) > std::abs(cut.real() - centre_);
            if (away < best - 1e-6 || (away < best + 1e-6 && outer)) {
                best = away;
                cut = Point(*at, from.imag());
            }
        }
        return cut;
    }

    /// Over the middle of each conductor and of each gap between two neighbours.
    void find_cuts() {
        std::map<int, std::pair<double, double>> spans;
        for (const Stretch& stretch : outline_.stretches) {
            if (!stretch.metal()) continue;
            const double low =
                stretch.round() ? stretch.centre.real() - stretch.radius : stretch.from.real();
            const double high =
                stretch.round() ? stretch.centre.real() + stretch.radius : stretch.to.real();
            const auto [found, fresh] = spans.emplace(stretch.conductor, std::pair(low, high));
            found->second.first = std::min(found->second.first, low);
            found->second.second = std::max(found->second.second, high);
        }
        std::vector<std::pair<double, double>> sorted;
        for (const auto& [conductor, span] : spans) sorted.push_back(span);
        std::ranges::sort(sorted);
        for (std::size_t i = 0; i < sorted.size(); ++i) {
            cuts_.push_back(0.5 * (sorted[i].first + sorted[i].second));
            if (i > 0 && sorted[i].first > sorted[i - 1].second) {
                cuts_.push_back(0.5 * (sorted[i].first + sorted[i - 1].second));
            }
        }
        std::ranges::sort(cuts_);
        centre_ = 0.5 * (cuts_.front() + cuts_.back());
    }

    void split(Point from, Point to, const Measure& measure, int depth) {
        constexpr int deepest = 40;
        Panel panel{0.5 * (from + to), 0.5 * (to - from), 0.0, measure, 1, 0, stretch_};
        // Without dielectrics what is wrong with the charge on metal would enter its sum squared,
        // and half the order would do; measured with them, this keeps both kinds in balance.
        constexpr double metal_share = 0.7;
        const bool metal = outline_.stretches[stretch_].metal();
        const double wanted = metal ? metal_share * wanted_ : wanted_;
        const double order = std::ceil(wanted / std::log(clearance(panel)) - 1e-6);
        constexpr double most = 5.0;
        if (order > most && depth < deepest) {
            halve(from, to, measure, depth);
            return;
        }
        panel.order = static_cast<int>(std::clamp(order, 1.0, most));
        add(panel);
    }

    /// The least ellipse, in the panel's own measure, that meets something sharp.
    double clearance(const Panel& panel) const {
        // What is farther than four lengths counts as being there: 8 + sqrt(63).
        double least = 15.9;
        const double near = 4.0 * panel.length();
        const Point turn = std::conj(panel.half) / std::norm(panel.half);
        std::vector<std::pair<double, Point>> close;
        double closest = HUGE_VAL;
        const auto begin = std::ranges::lower_bound(surroundings_.corners,
                                                    panel.middle.real() - near, {}, real_of);
        for (auto corner = begin; corner != surroundings_.corners.end(); ++corner) {
            const Point away = *corner - panel.middle;
            if (away.real() > near) break;
            if (std::norm(away) > near * near) continue;
            const Point place = away * turn;
            const double one = std::norm(place - 1.0);
            const double other = std::norm(place + 1.0);
            if (one < 1e-18 || other < 1e-18) continue;
            close.emplace_back(std::sqrt(one) + std::sqrt(other), place);
            closest = std::min(closest, close.back().first);
        }
        // The measure moves corners about, but the nearest stay among the near ones.
        for (const auto& [reach, place] : close) {
            if (reach > 1.5 * closest) continue;
            least = std::min(least, ellipse_through(panel.measure.inverse(place)));
        }
        for (const Stretch& circle : surroundings_.circles) {
            const Point away = circle.centre - panel.middle;
            const Point along = panel.half / std::abs(panel.half);
            const double on = std::clamp((away / along).real() / std::abs(panel.half), -1.0, 1.0);
            const Point gap = away - on * panel.half;
            // Half way to the middle: there lies what the circle shows of the panel.
            const double distance = std::max(std::abs(gap) - 0.5 * circle.radius,
                                             std::abs(std::abs(gap) - circle.radius));
            const Point seen = on + Point(0.0, distance / std::abs(panel.half));
            least = std::min(least, ellipse_through(panel.measure.inverse(seen)));
        }
        return least;
    }

    void add(Panel panel) {
        panel.first = mesh_.points.size();
        const GaussRule& rule = gauss_rule(panel.order);
        const Point normal = std::abs(panel.half.imag()) > 0.0 ? Point(1.0, 0.0) : Point(0.0, 1.0);
        for (int i = 0; i < panel.order; ++i) {
            add_point(panel.at(rule.points[static_cast<std::size_t>(i)]), normal);
        }
        mesh_.panels.push_back(panel);
    }

    void add_round(const Stretch& circle) {
        double nearest = 1e3 * circle.radius;
        for (Point corner : surroundings_.corners) {
            nearest = std::min(nearest, seen_at(std::abs(corner - circle.centre), circle.radius));
        }
        for (const Stretch& other : outline_.stretches) {
            if (!other.round()) nearest = std::min(nearest, wall_distance(other, circle));
        }
        for (const Stretch& other : surroundings_.circles) {
            const double apart = std::abs(other.centre - circle.centre);
            if (apart < 1e-9 * circle.radius) continue;
            const double reach = std::abs(apart - other.radius);  // beside, around or within
            nearest = std::min(nearest, seen_at(reach, circle.radius));
        }
        // Touching circles show each other all modes; the fewest and the most grow with what is
        // wanted, so that two meshes never agree for being cut at the same place.
        const double most = std::min(12.0 * wanted_, 120.0);
        const double modes = std::ceil(wanted_ / std::log(nearest / circle.radius) - 1e-6);
        Panel panel{circle.centre, 0.0, circle.radius, {}, 1, mesh_.points.size(), stretch_};
        const double fewest = std::ceil(1.5 * wanted_);
        panel.order = 2 * static_cast<int>(std::clamp(modes, fewest, std::ceil(most)));
        for (int i = 0; i < panel.order; ++i) {
            const double angle = circle_angle(panel.order, i);
            add_point(circle.centre + std::polar(circle.radius, angle), std::polar(1.0, angle));
        }
        mesh_.panels.push_back(panel);
    }

    /// What is at a distance inside a circle works as far outside (inversion); images of what is
    /// smooth lie deeper than it, here a little.
    static double seen_at(double distance, double radius) {
        const double outside = distance < radius ? radius * radius / distance : distance;
        return std::max(outside, 1.02 * radius);
    }

    double wall_distance(const Stretch& wall, const Stretch& circle) const {
        const Point along = wall.to - wall.from;
        const double on = ((circle.centre - wall.from) / along).real();
        const Point foot = wall.from + std::clamp(on, 0.0, 1.0) * along;
        return 2.0 * std::abs(foot - circle.centre) - circle.radius;
    }

    void add_point(Point point, Point normal) {
        mesh_.points.push_back(point);
        mesh_.normals.push_back(normal);
        mesh_.stretch_of.push_back(stretch_);
    }

    const Outline& outline_;
    double wanted_;
    Surroundings surroundings_;
    std::vector<double> cuts_;
    double centre_ = 0.0;
    std::size_t stretch_ = 0;
    Mesh mesh_;
};

}  // namespace

double circle_angle(int order, int point) { return 2.0 * std::numbers::pi * (point + 0.5) / order; }

double length_share(const Panel& panel, std::size_t point) {
    if (panel.round()) return 2.0 * std::numbers::pi * panel.radius / panel.order;
    const GaussRule& rule = gauss_rule(panel.order);
    return rule.weights[point] * panel.measure.slope(rule.points[point]) * std::abs(panel.half);
}

Mesh mesh_of(const Outline& outline, double tolerance) {
    return Mesher(outline, tolerance).meshed();
}

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
        Point u = 1.0 - std::pow((1.0 - side * place) / c, 2.0 / 3.0);
        const Point root = std::sqrt(1.0 - u * u);
        if (std::abs(root) > 1e-12) {
            const Point miss = (u * root + std::asin(u)) * 2.0 / std::numbers::pi - side * place;
            u -= miss / (root * 4.0 / std::numbers::pi);
        }
        return side * u;
    }
    if (sharp_from > 1.0) return 2.0 * std::pow(0.5 * (1.0 + place), 1.0 / sharp_from) - 1.0;
    return 1.0 - 2.0 * std::pow(0.5 * (1.0 - place), 1.0 / sharp_to);
}

}  // namespace pinfold::field
