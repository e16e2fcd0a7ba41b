#include "physics/field_outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <set>
#include <utility>

namespace pinfold::field {
namespace {

/// Lengths closer than this are the same: typed decimals differ in their last bits.
constexpr double finest_mm = 1e-9;

double snapped(double mm) { return std::round(mm / finest_mm) * finest_mm; }

struct Box {
    double x_min, x_max, y_min, y_max;
};

/// What is at a point: metal of a conductor, or a medium.
struct Filling {
    int conductor = -1;
    Medium medium;
    friend bool operator==(const Filling&, const Filling&) = default;
};

struct FilledBox {
    Box box;
    Filling filling;
};

struct FilledRound {
    Point centre;
    double radius;
    Filling filling;
};

/// The section in the frame of its planes.
struct Pieces {
    std::vector<FilledBox> boxes;
    std::vector<FilledRound> rounds;
    double floor = 0.0;   ///< y of the lower plane
    bool turned = false;  ///< the section hangs below its only plane
    Space space;

    double level(Millimetres y) const {
        return snapped(turned ? floor - y.value() : y.value() - floor);
    }
};

Pieces frame_of(const Section& section) {
    Pieces pieces;
    pieces.space.planes = static_cast<int>(section.planes.size());
    if (section.planes.empty()) return pieces;
    const auto [low, high] = std::ranges::minmax(section.planes, {}, &SectionPlane::y);
    pieces.floor = low.y.value();
    pieces.space.height = snapped(high.y.value() - low.y.value());
    pieces.turned = section.planes.size() == 1 && section.conductors.front().y < low.y;
    return pieces;
}

Box box_of(const SectionConductor& conductor, const Pieces& pieces) {
    const double x = conductor.x.value();
    const double half = conductor.width.value() / 2.0;
    const Millimetres up = 0.5 * conductor.thickness;
    const double one = pieces.level(conductor.y - up);
    const double other = pieces.level(conductor.y + up);
    return {snapped(x - half), snapped(x + half), std::min(one, other), std::max(one, other)};
}

Pieces pieces_of(const Section& section) {
    Pieces pieces = frame_of(section);
    for (std::size_t i = 0; i < section.conductors.size(); ++i) {
        const SectionConductor& conductor = section.conductors[i];
        const Filling metal{static_cast<int>(i), {}};
        if (conductor.round()) {
            const Point centre(snapped(conductor.x.value()), pieces.level(conductor.y));
            pieces.rounds.push_back({centre, conductor.diameter.value() / 2.0, metal});
        } else {
            pieces.boxes.push_back({box_of(conductor, pieces), metal});
        }
    }
    for (const SectionDielectric& dielectric : section.dielectrics) {
        const Filling filling{-1, {dielectric.er, dielectric.er * dielectric.loss}};
        if (dielectric.round()) {
            const Point centre(snapped(dielectric.x.value()), pieces.level(dielectric.y));
            pieces.rounds.push_back({centre, dielectric.diameter.value() / 2.0, filling});
        } else {
            const double one = pieces.level(dielectric.y_min);
            const double other = pieces.level(dielectric.y_max);
            pieces.boxes.push_back(
                {{snapped(dielectric.x_min.value()), snapped(dielectric.x_max.value()),
                  std::min(one, other), std::max(one, other)},
                 filling});
        }
    }
    return pieces;
}

/// Boxes sorted so that those at a line are found without asking all of them; boxes of metal win
/// over dielectric, which surrounds them.
class Map {
public:
    explicit Map(const Pieces& pieces) : pieces_(pieces) {}

    /// What fills the quarter of a point towards +-x, +-y.
    Filling at(Point point, int right, int up) const {
        const Filling* found = nullptr;
        for (const FilledBox& box : pieces_.boxes) {
            if (!holds(box.box.x_min, box.box.x_max, point.real(), right)) continue;
            if (!holds(box.box.y_min, box.box.y_max, point.imag(), up)) continue;
            if (box.filling.conductor >= 0) return box.filling;
            found = &box.filling;
        }
        if (found) return *found;
        for (const FilledRound& round : pieces_.rounds) {
            if (round.filling.conductor < 0 && std::abs(point - round.centre) < round.radius) {
                return round.filling;
            }
        }
        return {};
    }

    /// What surrounds a circle; the circle itself is not asked.
    Filling around(const FilledRound& circle) const {
        Filling found;
        for (const FilledBox& box : pieces_.boxes) {
            if (box.filling.conductor >= 0) continue;
            if (holds(box.box.x_min, box.box.x_max, circle.centre.real(), 1) &&
                holds(box.box.y_min, box.box.y_max, circle.centre.imag(), 1)) {
                found = box.filling;
            }
        }
        if (circle.filling.conductor < 0) return found;
        for (const FilledRound& round : pieces_.rounds) {
            if (round.filling.conductor >= 0) continue;
            if (std::abs(circle.centre - round.centre) < round.radius) found = round.filling;
        }
        return found;
    }

private:
    static bool holds(double least, double most, double value, int towards) {
        return towards > 0 ? least <= value && value < most : least < value && value <= most;
    }

    const Pieces& pieces_;
};

/// The same where no metal is: around a square corner of one medium in another.
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

/// How sharply charge gathers where metal fills some of the four quarters around a point: the
/// field goes as distance^(a-1), and 1/a is returned.
///
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
    const auto end_value = [&](double a) {
        const double turn = a * std::numbers::pi / 2.0;
        double value = 0.0;
        double flux = 1.0;
        for (int i = 1; i < 4; ++i) {
            const double er = quarters[static_cast<std::size_t>((last + i) % 4)].medium.er;
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
    const double found = 1.0 / low;
    return std::abs(found - 1.5) < 1e-6 ? 1.5 : std::clamp(found, 1.0, 1.95);
}

/// The lines of one direction: `along` runs on the line, `across` from line to line.
class Tracer {
public:
    Tracer(const Pieces& pieces, bool level, std::vector<Stretch>& out)
        : pieces_(pieces), map_(pieces), level_(level), out_(out) {}

    void trace() {
        std::set<double> lines;
        for (const FilledBox& box : pieces_.boxes) {
            for (double across : {low_across(box.box), high_across(box.box)}) lines.insert(across);
        }
        for (double across : lines) trace_line(across);
    }

private:
    double low_across(const Box& box) const { return level_ ? box.y_min : box.x_min; }
    double high_across(const Box& box) const { return level_ ? box.y_max : box.x_max; }
    double low_along(const Box& box) const { return level_ ? box.x_min : box.y_min; }
    double high_along(const Box& box) const { return level_ ? box.x_max : box.y_max; }

    bool on_plane(double across) const {
        if (!level_ || pieces_.space.planes == 0) return false;
        return across <= 0.0 || (pieces_.space.planes == 2 && across >= pieces_.space.height);
    }

    Point point(double along, double across) const {
        return level_ ? Point(along, across) : Point(across, along);
    }

    Filling side(double along, double across, int ahead, int up) const {
        return level_ ? map_.at(point(along, across), ahead, up)
                      : map_.at(point(along, across), up, ahead);
    }

    void trace_line(double across) {
        if (on_plane(across)) return;
        std::set<double> breaks;
        for (const FilledBox& box : pieces_.boxes) {
            if (low_across(box.box) > across || high_across(box.box) < across) continue;
            for (double along : {low_along(box.box), high_along(box.box)}) breaks.insert(along);
        }
        std::optional<Stretch> open;
        for (auto at = breaks.begin(); at != breaks.end() && std::next(at) != breaks.end(); ++at) {
            const bool goes_on = open && passes(*at, across);
            if (open && !goes_on) close(*open, *at, across);
            if (goes_on) continue;
            open = begun(*at, across);
        }
        if (open) close(*open, *breaks.rbegin(), across);
    }

    /// Nothing ends and nothing branches off at this point of the line.
    bool passes(double along, double across) const {
        return side(along, across, 1, 1) == side(along, across, -1, 1) &&
               side(along, across, 1, -1) == side(along, across, -1, -1);
    }

    std::optional<Stretch> begun(double along, double across) {
        const Filling above = side(along, across, 1, 1);
        const Filling below = side(along, across, 1, -1);
        if (above == below || (above.conductor >= 0 && below.conductor >= 0)) return std::nullopt;
        Stretch stretch;
        stretch.from = point(along, across);
        stretch.sharp_from = sharpness_at(along, across);
        stretch.conductor = std::max(above.conductor, below.conductor);
        stretch.before = above.conductor >= 0 ? below.medium : above.medium;
        stretch.behind = below.conductor >= 0 ? above.medium : below.medium;
        return stretch;
    }

    void close(Stretch& stretch, double along, double across) {
        stretch.to = point(along, across);
        stretch.sharp_to = sharpness_at(along, across);
        out_.push_back(stretch);
    }

    double sharpness_at(double along, double across) {
        const Point here = point(along, across);
        const bool planes = pieces_.space.planes > 0;
        if (planes && here.imag() <= 0.0) return 1.0;  // goes on smoothly in its image
        if (pieces_.space.planes == 2 && here.imag() >= pieces_.space.height) return 1.0;
        const std::array<Filling, 4> quarters{map_.at(here, 1, 1), map_.at(here, -1, 1),
                                              map_.at(here, -1, -1), map_.at(here, 1, -1)};
        std::array<double, 4> key;
        for (std::size_t i = 0; i < 4; ++i) {
            key[i] = quarters[i].conductor >= 0 ? 0.0 : quarters[i].medium.er;
        }
        const auto known = sharpnesses_.find(key);
        if (known != sharpnesses_.end()) return known->second;
        return sharpnesses_[key] = sharpness(quarters);
    }

    const Pieces& pieces_;
    Map map_;
    bool level_;
    std::vector<Stretch>& out_;
    std::map<std::array<double, 4>, double> sharpnesses_;  ///< by permittivity, 0 for metal
};

void trace_rounds(const Pieces& pieces, std::vector<Stretch>& out) {
    const Map map(pieces);
    for (const FilledRound& round : pieces.rounds) {
        const Medium outside = map.around(round).medium;
        const bool metal = round.filling.conductor >= 0;
        if (!metal && outside == round.filling.medium) continue;
        Stretch stretch;
        stretch.centre = round.centre;
        stretch.radius = round.radius;
        stretch.conductor = round.filling.conductor;
        stretch.before = outside;
        stretch.behind = metal ? outside : round.filling.medium;
        out.push_back(stretch);
    }
}

double size_of(const std::vector<Stretch>& stretches) {
    double least_x = HUGE_VAL, most_x = -HUGE_VAL, least_y = HUGE_VAL, most_y = -HUGE_VAL;
    for (const Stretch& stretch : stretches) {
        if (!stretch.metal()) continue;
        const Point reach(stretch.radius, stretch.radius);
        const Point low = (stretch.round() ? stretch.centre : stretch.from) - reach;
        const Point high = (stretch.round() ? stretch.centre : stretch.to) + reach;
        least_x = std::min(least_x, low.real()), most_x = std::max(most_x, high.real());
        least_y = std::min(least_y, low.imag()), most_y = std::max(most_y, high.imag());
    }
    return std::max(most_x - least_x, most_y - least_y);
}

}  // namespace

Outline outline_of(const Section& section) {
    const Pieces pieces = pieces_of(section);
    Outline outline{pieces.space, {}, section.conductors.size(), 1.0};
    Tracer(pieces, true, outline.stretches).trace();
    Tracer(pieces, false, outline.stretches).trace();
    trace_rounds(pieces, outline.stretches);
    // std::ranges::stable_partition gives what clang 14 cannot take.
    std::stable_partition(outline.stretches.begin(), outline.stretches.end(),
                          [](const Stretch& stretch) { return stretch.metal(); });
    outline.size = size_of(outline.stretches);
    return outline;
}

}  // namespace pinfold::field
