#include "physics/field_outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "physics/field_pieces.hpp"
#include "physics/field_sharpness.hpp"

namespace pinfold::field {
namespace {

/// How sharp the places are where stretches end; what was found is looked up again.
class Corners {
public:
    explicit Corners(const Space& space) : space_(space) {}

    double at(Point here, const std::array<Filling, 4>& quarters) {
        if (space_.planes > 0 && here.imag() <= 0.0) return 1.0;  // goes on smoothly in its image
        if (space_.planes == 2 && here.imag() >= space_.height) return 1.0;
        std::array<double, 4> key;
        for (std::size_t i = 0; i < 4; ++i) {
            key[i] = quarters[i].conductor >= 0 ? 0.0 : quarters[i].medium.er;
        }
        const auto [known, fresh] = known_.try_emplace(key);
        if (fresh) known->second = sharpness(quarters);
        return known->second;
    }

private:
    const Space& space_;
    std::map<std::array<double, 4>, double> known_;  ///< by permittivity, 0 for metal
};

void sort_each_once(std::vector<double>& values) {
    std::ranges::sort(values);
    values.erase(std::unique(values.begin(), values.end()), values.end());
}

/// The lines of one direction: `along` runs on the line, `across` from line to line.
class Tracer {
public:
    Tracer(const Pieces& pieces, const Map& map, Corners& corners, bool level,
           std::vector<Stretch>& out)
        : pieces_(pieces), map_(map), corners_(corners), level_(level), out_(out) {}

    void trace() {
        std::vector<double> lines;
        for (const FilledBox& box : pieces_.boxes) {
            lines.push_back(low_across(box.box));
            lines.push_back(high_across(box.box));
        }
        sort_each_once(lines);
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

    /// A place on the line and what is around it: right and up, left and up, and so on.
    struct Place {
        Point at;
        std::array<Filling, 4> quarters;
    };

    Place place(double along, double across) const {
        const Point at = point(along, across);
        return {at,
                {map_.at(at, 1, 1), map_.at(at, -1, 1), map_.at(at, -1, -1), map_.at(at, 1, -1)}};
    }

    /// Ahead on the line (or behind) and on its upper or right side (or the other).
    const Filling& side(const Place& place, bool ahead, bool up) const {
        const bool right = level_ ? ahead : up;
        const bool above = level_ ? up : ahead;
        return place.quarters[above ? (right ? 0 : 1) : (right ? 3 : 2)];
    }

    void trace_line(double across) {
        if (on_plane(across)) return;
        breaks_.clear();
        for (const FilledBox& box : pieces_.boxes) {
            if (low_across(box.box) > across || high_across(box.box) < across) continue;
            breaks_.push_back(low_along(box.box));
            breaks_.push_back(high_along(box.box));
        }
        sort_each_once(breaks_);
        std::optional<Stretch> open;
        for (std::size_t i = 0; i + 1 < breaks_.size(); ++i) {
            const Place here = place(breaks_[i], across);
            if (open && passes(here)) continue;
            if (open) close(*open, here);
            open = begun(here);
        }
        if (open) close(*open, place(breaks_.back(), across));
    }

    /// Nothing ends and nothing branches off at this point of the line.
    bool passes(const Place& here) const {
        return side(here, true, true) == side(here, false, true) &&
               side(here, true, false) == side(here, false, false);
    }

    std::optional<Stretch> begun(const Place& here) {
        const Filling& above = side(here, true, true);
        const Filling& below = side(here, true, false);
        if (above == below || (above.conductor >= 0 && below.conductor >= 0)) return std::nullopt;
        Stretch stretch;
        stretch.from = here.at;
        stretch.sharp_from = corners_.at(here.at, here.quarters);
        stretch.conductor = std::max(above.conductor, below.conductor);
        stretch.before = above.conductor >= 0 ? below.medium : above.medium;
        stretch.behind = below.conductor >= 0 ? above.medium : below.medium;
        return stretch;
    }

    void close(Stretch& stretch, const Place& here) {
        stretch.to = here.at;
        stretch.sharp_to = corners_.at(here.at, here.quarters);
        out_.push_back(stretch);
    }

    const Pieces& pieces_;
    const Map& map_;
    Corners& corners_;
    bool level_;
    std::vector<Stretch>& out_;
    std::vector<double> breaks_;
};

void trace_rounds(const Pieces& pieces, const Map& map, std::vector<Stretch>& out) {
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
    const Map map(pieces);
    Corners corners(pieces.space);
    for (const bool level : {true, false}) {
        Tracer(pieces, map, corners, level, outline.stretches).trace();
    }
    trace_rounds(pieces, map, outline.stretches);
    // std::ranges::stable_partition gives what clang 14 cannot take.
    std::stable_partition(outline.stretches.begin(), outline.stretches.end(),
                          [](const Stretch& stretch) { return stretch.metal(); });
    outline.size = size_of(outline.stretches);
    return outline;
}

}  // namespace pinfold::field
