#include "physics/field_surroundings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "physics/section_shape.hpp"

namespace pinfold::field {
namespace {

/// What is farther than four lengths counts as being there: 8 + sqrt(63).
constexpr double farthest_lengths = 4.0;
constexpr double farthest_ellipse = 15.9;

/// Between walls that face each other most of the charge is gathered: what is across counts by this
/// power of its ellipse. Found on some hundred sections, against far finer meshes: with it the
/// error stays below its estimate where gaps are narrower than metal is thick.
constexpr double across_power = 0.7;

/// Whether a place stands across from a panel from -1 to 1, no farther off than twice its length.
bool is_across(Point place) { return std::abs(place.real()) < 1.2 && std::abs(place.imag()) < 4.0; }

/// Sum of the half axes of the ellipse with foci -1 and 1 through what is so far from both.
double ellipse_of(double reach) {
    const double both = 0.5 * reach;
    return both + std::sqrt(std::max(0.0, both * both - 1.0));
}

double ellipse_through(Point w) {
    return ellipse_of(std::sqrt(std::norm(w - 1.0)) + std::sqrt(std::norm(w + 1.0)));
}

/// What is at a distance inside a circle works as far outside (inversion); images of what is
/// smooth lie deeper than it, here a little.
double seen_at(double distance, double radius) {
    const double outside = distance < radius ? radius * radius / distance : distance;
    return std::max(outside, 1.02 * radius);
}

/// What is wrong with the charge on a conductor in one medium enters its sum squared in vacuum, and
/// so half the order would do; measured with dielectrics, this keeps walls and faces in balance.
/// Where walls of a conductor look into unlike media it enters their sums to first order.
std::vector<double> shares_of(const Outline& outline) {
    constexpr double in_one_medium = 0.7;
    std::vector<std::optional<Medium>> media(outline.conductors);
    std::vector<bool> alike(outline.conductors, true);
    const auto conductor_of = [](const Stretch& s) {
        return static_cast<std::size_t>(s.conductor);
    };
    for (const Stretch& stretch : outline.stretches) {
        if (!stretch.metal()) continue;
        std::optional<Medium>& medium = media[conductor_of(stretch)];
        if (medium && *medium != stretch.before) alike[conductor_of(stretch)] = false;
        medium = stretch.before;
    }
    std::vector<double> shares;
    for (const Stretch& stretch : outline.stretches) {
        const bool wall = stretch.metal() && !stretch.round();
        shares.push_back(wall && alike[conductor_of(stretch)] ? in_one_medium : 1.0);
    }
    return shares;
}

double wall_distance(const Stretch& wall, const Stretch& circle) {
    const Point along = wall.to - wall.from;
    const double on = ((circle.centre - wall.from) / along).real();
    const Point foot = wall.from + std::clamp(on, 0.0, 1.0) * along;
    return std::abs(foot - circle.centre);
}

/// How close a face runs by a conductor, along its wall or over the end of it, against the length
/// of the wall or its diameter; endless if it does not.
double closeness_of(const Stretch& face, const Stretch& metal) {
    if (metal.round()) {
        return (wall_distance(face, metal) - metal.radius) / (2.0 * metal.radius);
    }
    const bool level = face.from.imag() == face.to.imag();
    const auto along = [&](Point p) { return level ? p.real() : p.imag(); };
    const auto across = [&](Point p) { return level ? p.imag() : p.real(); };
    if (along(face.from) >= along(metal.to) || along(face.to) <= along(metal.from)) return HUGE_VAL;
    const double apart = std::min(std::abs(across(face.from) - across(metal.from)),
                                  std::abs(across(face.from) - across(metal.to)));
    return apart > 0.0 ? apart / std::abs(metal.to - metal.from) : HUGE_VAL;
}

bool along_each_other(const Stretch& face, const Stretch& wall) {
    return !wall.round() &&
           (face.from.imag() == face.to.imag()) == (wall.from.imag() == wall.to.imag());
}

/// How much more is wanted of both where a face runs by metal that closely: the charge of one
/// nearly makes up for the other's, the more so the more the permittivity changes across the face,
/// and what is wrong with either does not smooth out. Found on thousands of sections, against far
/// finer meshes.
double gain_of(const Stretch& face, double closeness) {
    constexpr double most = 0.5;
    const double sum = face.before.er + face.behind.er;
    const double change = std::abs(face.before.er - face.behind.er) / sum;  // what it reflects
    const double close = 0.6 * change;
    if (closeness >= close) return 1.0;
    return 1.0 + most * std::min(1.0, (close - closeness) / (0.9 * close));
}

}  // namespace

Surroundings::Surroundings(const Outline& outline)
    : outline_(outline), shares_(shares_of(outline)) {
    for (const Stretch& stretch : outline.stretches) {
        if (stretch.round()) {
            add_circle(stretch);
            continue;
        }
        if (stretch.sharp_from > 1.0) add_corner(stretch.from, stretch.conductor);
        if (stretch.sharp_to > 1.0) add_corner(stretch.to, stretch.conductor);
    }
    find_hugging();
    std::ranges::sort(corners_, {}, [](const Corner& corner) {
        return std::tuple(corner.at.real(), corner.at.imag(), corner.conductor);
    });
    corners_.erase(std::unique(corners_.begin(), corners_.end()), corners_.end());
}

void Surroundings::add_circle(const Stretch& circle) {
    circles_.push_back(circle);
    for (int i = 0; i < outline_.space.mirrors(); ++i) {
        Stretch image = circle;
        image.centre = outline_.space.mirrored(circle.centre, i);
        circles_.push_back(image);
    }
}

void Surroundings::add_corner(Point corner, int conductor) {
    corners_.push_back({corner, conductor});
    for (int i = 0; i < outline_.space.mirrors(); ++i) {
        corners_.push_back({outline_.space.mirrored(corner, i), -1});
    }
}

void Surroundings::find_hugging() {
    const std::vector<Stretch>& all = outline_.stretches;
    std::vector<double> gains(all.size(), 1.0);
    const auto metal = static_cast<std::size_t>(std::ranges::count_if(all, &Stretch::metal));
    for (std::size_t w = 0; w < metal; ++w) {
        for (std::size_t f = metal; f < all.size(); ++f) {
            if (all[f].round()) continue;
            const double gain = gain_of(all[f], closeness_of(all[f], all[w]));
            if (gain == 1.0) continue;
            gains[f] = std::max(gains[f], gain);
            gains[w] = std::max(gains[w], gain);
            if (along_each_other(all[f], all[w])) add_seen_corners(all[f], all[w]);
        }
    }
    for (std::size_t i = 0; i < all.size(); ++i) shares_[i] *= gains[i];
}

/// The ends of a wall as a face over them shows them.
void Surroundings::add_seen_corners(const Stretch& face, const Stretch& wall) {
    const Point way = wall.to - wall.from;
    const Point begin = (face.from - wall.from) / way;
    const Point end = (face.to - wall.from) / way;
    for (double at : {0.0, 1.0}) {
        if (begin.real() >= at || end.real() <= at) continue;
        corners_.push_back({wall.from + Point(at, 2.0 * begin.imag()) * way, wall.conductor});
    }
}

double Surroundings::clearance(const Panel& panel, double enough) const {
    double least = corner_clearance(panel, enough);
    for (const Stretch& circle : circles_) {
        least = std::min(least, circle_clearance(panel, circle));
    }
    return least;
}

double Surroundings::corner_clearance(const Panel& panel, double enough) const {
    const Point turn = std::conj(panel.half) / std::norm(panel.half);
    const bool plain = panel.measure.plain();
    const bool alike = panel.measure.sharp_from == panel.measure.sharp_to;  // at both ends
    const double small = enough + 1.0 / enough;  // of an ellipse, through what is so far away
    double closest = farthest_ellipse + 1.0 / farthest_ellipse;
    const int conductor = outline_.stretches[panel.stretch].conductor;
    struct Close {
        double reach;
        Point place;
        bool across;
    };
    std::vector<Close> close;
    const double near = farthest_lengths * panel.length();
    const double half = 0.5 * panel.length();
    const auto too_far = [&](double distance) {  // what it reaches is at least twice as far
        return distance > near || 2.0 * distance > (plain ? 1.0 : 1.5) * closest * half;
    };
    const auto look_at = [&](const Corner& corner) {
        const Point place = (corner.at - panel.middle) * turn;
        const double one = std::norm(place - 1.0);
        const double other = std::norm(place + 1.0);
        if (one < 1e-18 || other < 1e-18) return;  // its own
        const double reach = std::sqrt(one) + std::sqrt(other);
        closest = std::min(closest, reach);
        const bool across = conductor >= 0 && corner.conductor != conductor && is_across(place);
        if (plain || reach > 1.5 * closest) return;
        const Point seen = alike ? Point(std::abs(place.real()), std::abs(place.imag())) : place;
        const bool again = !close.empty() && close.back().across == across &&
                           std::norm(close.back().place - seen) < 1e-18;
        if (!again) close.push_back({reach, seen, across});
    };
    const double x = panel.middle.real();
    const auto left = [](const Corner& c) { return c.at.real(); };
    const auto right = std::ranges::lower_bound(corners_, x, {}, left);
    for (auto at = right; at != corners_.end() && !too_far(left(*at) - x); ++at) {
        look_at(*at);
        if (plain && closest < small) break;
    }
    for (auto at = right; at != corners_.begin() && !too_far(x - left(*std::prev(at))); --at) {
        if (plain && closest < small) break;
        look_at(*std::prev(at));
    }
    double least = farthest_ellipse;
    if (plain) return std::min(least, ellipse_of(closest));
    // The measure moves corners about, but the nearest stay among the near ones.
    for (const Close& one : close) {
        if (one.reach > 1.5 * closest) continue;
        const double ellipse = ellipse_through(panel.measure.inverse(one.place));
        least = std::min(least, one.across ? std::pow(ellipse, across_power) : ellipse);
    }
    return least;
}

double Surroundings::circle_clearance(const Panel& panel, const Stretch& circle) const {
    const Point away = circle.centre - panel.middle;
    const Point along = panel.half / std::abs(panel.half);
    const double on = std::clamp((away / along).real() / std::abs(panel.half), -1.0, 1.0);
    const Point gap = away - on * panel.half;
    // Half way to the middle: there lies what the circle shows of the panel.
    const double distance =
        std::max(std::abs(gap) - 0.5 * circle.radius, std::abs(std::abs(gap) - circle.radius));
    const Point seen = on + Point(0.0, distance / std::abs(panel.half));
    const double ellipse = ellipse_through(panel.measure.inverse(seen));
    const bool across = outline_.stretches[panel.stretch].metal() && circle.metal() &&
                        is_across((circle.centre - panel.middle) / panel.half);
    return across ? std::pow(ellipse, across_power) : ellipse;
}

double Surroundings::decay_of(const Stretch& circle) const {
    double least = std::log(1e3);
    for (const Corner& corner : corners_) {
        const double seen = seen_at(std::abs(corner.at - circle.centre), circle.radius);
        least = std::min(least, std::log(seen / circle.radius));
    }
    for (const Stretch& wall : outline_.stretches) {
        if (wall.round()) continue;
        const double apart = 2.0 * wall_distance(wall, circle);  // of the circle and its image
        least = std::min(least, bipolar_of(circle.radius, circle.radius, apart));
    }
    for (const Stretch& other : circles_) {  // beside, around or within
        const double apart = std::abs(other.centre - circle.centre);
        if (apart < 1e-9 * circle.radius) continue;
        least = std::min(least, bipolar_of(circle.radius, other.radius, apart));
    }
    return least;
}

}  // namespace pinfold::field
