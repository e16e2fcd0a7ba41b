#include "physics/field_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include "physics/field_gauss.hpp"
#include "physics/field_surroundings.hpp"
#include "physics/section_shape.hpp"

namespace pinfold::field {
namespace {

class Mesher {
public:
    Mesher(const Outline& outline, double tolerance)
        : outline_(outline), wanted_(std::log(1.0 / tolerance)), surroundings_(outline) {
        mesh_.tolerance = tolerance;
        find_cuts();
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

    /// The middle, or on a level stretch the nearest place over the middle of a gap, or else of a
    /// conductor: so faces over equal conductors at equal pitch get equal panels, one for each as
    /// long as that does. Of two places as near the outer one, and at the middle of all any, that
    /// the mesh be its own mirror image where the section is.
    Point cut_of(Point from, Point to) const {
        const Point middle = 0.5 * (from + to);
        if (from.imag() != to.imag()) return middle;
        const double reach = 0.25 * (to.real() - from.real());
        std::optional<double> cut;
        if (std::abs(middle.real() - centre_) > 1e-6 * reach) cut = cut_near(gaps_, middle, reach);
        if (!cut) cut = cut_near(cuts_, middle, reach);
        return cut ? Point(*cut, from.imag()) : middle;
    }

    std::optional<double> cut_near(const std::vector<double>& cuts, Point middle,
                                   double reach) const {
        const double x = middle.real();
        const auto above = std::ranges::lower_bound(cuts, x);
        double best = 1.0;
        std::optional<double> cut;
        for (auto at = above == cuts.begin() ? above : std::prev(above);
             at != cuts.end() && at <= above; ++at) {
            const double away = std::abs(*at - x) / reach;
            const bool outer = cut && std::abs(*at - centre_) > std::abs(*cut - centre_);
            if (away < best - 1e-6 || (away < best + 1e-6 && outer)) {
                best = away;
                cut = *at;
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
                gaps_.push_back(0.5 * (sorted[i].first + sorted[i - 1].second));
                cuts_.push_back(gaps_.back());
            }
        }
        std::ranges::sort(cuts_);
        centre_ = 0.5 * (cuts_.front() + cuts_.back());
    }

    void split(Point from, Point to, const Measure& measure, int depth) {
        constexpr int deepest = 40;
        Panel panel{0.5 * (from + to), 0.5 * (to - from), 0.0, measure, 1, 0, stretch_};
        const double wanted = surroundings_.share(stretch_) * wanted_;
        constexpr double most = 5.0;
        const double clearance = surroundings_.clearance(panel, std::exp(wanted / most));
        const double order = std::ceil(wanted / std::log(clearance) - 1e-6);
        if (order > most && depth < deepest) {
            halve(from, to, measure, depth);
            return;
        }
        panel.order = static_cast<int>(std::clamp(order, 1.0, most));
        add(panel);
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
        const double decay = surroundings_.decay_of(circle);
        // Touching circles show each other all modes; the fewest and the most grow with what is
        // wanted, so that two meshes never agree for being cut at the same place.
        const double wanted = surroundings_.share(stretch_) * wanted_;
        const double fewest = std::ceil(1.7 * wanted);
        const double most = std::ceil(std::min(12.0 * wanted, 120.0));
        const double modes =
            decay < least_bipolar ? most : std::max(fewest, std::ceil(wanted / decay - 1e-6));
        Panel panel{circle.centre, 0.0, circle.radius, {}, 1, mesh_.points.size(), stretch_};
        panel.order = 2 * static_cast<int>(modes);
        for (int i = 0; i < panel.order; ++i) {
            const double angle = circle_angle(panel.order, i);
            add_point(circle.centre + std::polar(circle.radius, angle), std::polar(1.0, angle));
        }
        mesh_.panels.push_back(panel);
    }

    void add_point(Point point, Point normal) {
        mesh_.points.push_back(point);
        mesh_.normals.push_back(normal);
        mesh_.stretch_of.push_back(stretch_);
    }

    const Outline& outline_;
    double wanted_;
    Surroundings surroundings_;
    std::vector<double> cuts_;  ///< from left to right
    std::vector<double> gaps_;  ///< those between conductors
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

}  // namespace pinfold::field
