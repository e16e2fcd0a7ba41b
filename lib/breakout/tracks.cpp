#include "breakout/tracks.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "breakout/river.hpp"

namespace pinfold {
namespace {

constexpr double root2 = 1.4142135623730951;
constexpr double hair = 1e-9;

bool same_place(const Spot& one, const Spot& other) {
    return std::abs(one.x_mm - other.x_mm) < hair && std::abs(one.y_mm - other.y_mm) < hair;
}

bool in_one_line(const Spot& a, const Spot& b, const Spot& c) {
    return std::abs((b.x_mm - a.x_mm) * (c.y_mm - b.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - b.x_mm)) <
           hair;
}

/// A track, point by point, without points that do not matter.
void extend(Track& track, const Spot& spot) {
    std::vector<Spot>& points = track.points;
    if (!points.empty() && same_place(points.back(), spot)) return;
    const std::size_t count = points.size();
    if (count > 1 && in_one_line(points[count - 2], points[count - 1], spot)) points.pop_back();
    points.push_back(spot);
}

/// Distances within a stage of dives, from its beginning.
struct StagePlan {
    double column;  ///< between columns
    double aside;   ///< where those between begin to step aside
    double up;      ///< where the wire that dived comes up
    double height;

    explicit StagePlan(const TrackRules& rules) {
        const double reach = rules.via_reach();
        column = std::max(reach, root2 * rules.spacing());
        // So that a trace that comes into the column passes the via below it, and one that leaves
        // it the via above.
        aside = std::max(0.0, root2 * reach - column);
        up = aside + root2 * reach;
        height = up + reach;
    }
};

class Draughtsman {
public:
    Draughtsman(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives)
        : rows_(rows),
          escape_(escape),
          dives_(dives),
          plan_(rows.rules),
          turns_(rows.course != Course::in_line),
          order_(escape.wires.size()) {
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        for (const std::size_t side : {0, 1}) {
            ways_[side] = exit_ways(rows.sides[side], escape.exits[side], rows.rules);
            mouths_[side] = mouth_mm(rows.sides[side], rows.rules);
        }
    }

    Tracks draw() {
        place_far_row();
        begin_wires();
        double y = mouths_[0];
        if (dives_.empty()) {
            y = run_river(y + spare_ / 2, near_places(), far_places()) + spare_ / 2;
        } else {
            y = run_river(y, near_places(), columns()) + spare_ / 2 + rows_.rules.via_reach();
            y = run_dives(y) + spare_ / 2;
            y = run_river(y, columns(), far_places());
        }
        end_wires(y);
        draw_pads();
        if (rows_.course == Course::to_left) mirror();
        return std::move(tracks_);
    }

private:
    const Route& wire(std::size_t w) const { return escape_.wires[w]; }
    const ExitWay& way(std::size_t w, std::size_t side) const {
        return ways_[side][wire(w).pads[side]];
    }
    std::size_t count() const { return escape_.wires.size(); }

    std::vector<std::size_t> in_far_order() const {
        std::vector<std::size_t> order(count());
        for (std::size_t w = 0; w < count(); ++w) order[wire(w).far_place] = w;
        return order;
    }

    std::vector<double> near_places() const {
        std::vector<double> places;
        for (std::size_t w = 0; w < count(); ++w) places.push_back(way(w, 0).points.back().x_mm);
        return places;
    }
    std::vector<double> far_places() const {
        std::vector<double> places;
        for (const std::size_t w : in_far_order()) {
            places.push_back(way(w, 1).points.back().x_mm + shift_);
        }
        return places;
    }
    /// Columns in the middle between the two rows' traces.
    std::vector<double> columns() const {
        double middle = 0.0;
        for (const double place : near_places()) middle += place / static_cast<double>(2 * count());
        for (const double place : far_places()) middle += place / static_cast<double>(2 * count());
        std::vector<double> places;
        for (std::size_t c = 0; c < count(); ++c) {
            const double from_middle =
                static_cast<double>(c) - static_cast<double>(count() - 1) / 2.0;
            places.push_back(middle + from_middle * plan_.column);
        }
        return places;
    }

    /// The way the corner is cut.
    double cut() const { return rows_.rules.spacing(); }

    /// How far along its row anything of the far row reaches, a gap to other tracks included.
    double far_reach() const {
        const TrackRules& rules = rows_.rules;
        double most = -1e9;
        for (std::size_t w = 0; w < count(); ++w) {
            most = std::max(most, way(w, 1).points.back().x_mm);
        }
        for (const RowPad& pad : rows_.side(Side::far).pads) {
            const double half = std::max(pad.width_mm, rules.via_mm) / 2;
            most = std::max(most, pad.along_mm + half + rules.gap_mm + rules.track_mm / 2);
        }
        return most;
    }

    /// Settles where the far row is, and the straight run that is left over.
    void place_far_row() {
        const auto& placed = rows_.placed_front_mm;
        if (turns_ && placed) shift_ = *placed - mouths_[1] - cut() - far_reach();
        const double needed = least_channel();
        tracks_.needed_mm = turns_ ? needed + cut() : needed + mouths_[1];
        if (placed) {
            tracks_.placed_mm = turns_ ? -far_reach() : *placed;
            spare_ = std::max(0.0, *tracks_.placed_mm - tracks_.needed_mm);
        }
    }

    /// Where the channel ends above the near front line if nothing is left over.
    double least_channel() const {
        const double begin = mouths_[0];
        if (dives_.empty()) return begin + river(order_, near_places(), far_places()).height_mm;
        return begin + river(order_, near_places(), columns()).height_mm + rows_.rules.via_reach() +
               plan_.height * static_cast<double>(stages()) +
               river(in_far_order(), columns(), far_places()).height_mm;
    }

    std::size_t stages() const {
        return dives_.empty() ? 0 : std::ranges::max(dives_, {}, &Dive::stage).stage + 1;
    }

    River river(const std::vector<std::size_t>& order, const std::vector<double>& from,
                const std::vector<double>& to) const {
        std::vector<Current> currents;
        for (std::size_t c = 0; c < order.size(); ++c) {
            currents.push_back({from[c], to[c], wire(order[c]).net});
        }
        return lay_river(currents, rows_.rules.spacing());
    }

    void begin_wires() {
        for (std::size_t w = 0; w < count(); ++w) {
            current_.push_back({wire(w).net, w, CopperLayer::top, {}});
            for (const Spot& spot : way(w, 0).points) extend(current_.back(), spot);
        }
    }

    double run_river(double y, const std::vector<double>& from, const std::vector<double>& to) {
        const River laid = river(order_, from, to);
        for (std::size_t c = 0; c < from.size(); ++c) {
            const double begins = y + laid.begins_mm[c];
            Track& track = current_[order_[c]];
            extend(track, {from[c], begins});
            extend(track, {to[c], begins + std::abs(to[c] - from[c])});
        }
        return y + laid.height_mm;
    }

    double run_dives(double y) {
        const std::vector<double> column = columns();
        for (std::size_t stage = 0; stage < stages(); ++stage) {
            for (const Dive& dive : dives_) {
                if (dive.stage == stage) draw_dive(dive, y, column);
            }
            y += plan_.height;
        }
        return y;
    }

    void draw_dive(const Dive& dive, double y, const std::vector<double>& column) {
        const bool right = dive.to > dive.from;
        for (std::size_t c = dive.from; c != dive.to; right ? ++c : --c) {
            const std::size_t next = right ? c + 1 : c - 1;
            Track& aside = current_[order_[next]];
            extend(aside, {column[next], y + plan_.aside});
            extend(aside, {column[c], y + plan_.aside + plan_.column});
            std::swap(order_[c], order_[next]);
        }
        const Spot down{column[dive.from], y};
        const Spot up{column[dive.to], y + plan_.up};
        change_layer(dive.wire, down, CopperLayer::bottom);
        const double across = std::abs(up.x_mm - down.x_mm);
        const double back = (right ? 1.0 : -1.0) * std::min(across, plan_.up);
        extend(current_[dive.wire], {up.x_mm - back, down.y_mm});
        extend(current_[dive.wire], {up.x_mm - back, up.y_mm - std::abs(back)});
        change_layer(dive.wire, up, CopperLayer::top);
    }

    void change_layer(std::size_t w, const Spot& at, CopperLayer layer) {
        extend(current_[w], at);
        tracks_.tracks.push_back(std::move(current_[w]));
        tracks_.vias.push_back({wire(w).net, at});
        current_[w] = {wire(w).net, w, layer, {at}};
    }

    /// From the far row's own frame onto the page.
    Spot on_page(const Spot& spot) const {
        if (turns_) return {front_ - spot.y_mm, base_ - spot.x_mm};
        return {spot.x_mm + shift_, front_ - spot.y_mm};
    }

    void end_wires(double y) {
        base_ = rows_.placed_front_mm && tracks_.needed_mm <= *tracks_.placed_mm + hair
                    ? 0.0
                    : y + cut() + far_reach();
        front_ = turns_ ? far_reach() + shift_ + cut() + mouths_[1] : y + mouths_[1];
        for (std::size_t w = 0; w < count(); ++w) {
            const std::vector<Spot>& points = way(w, 1).points;
            if (turns_) {
                const double x = points.back().x_mm;
                extend(current_[w], {x + shift_, base_ - x - cut()});
                extend(current_[w], {x + shift_ + cut(), base_ - x});
            }
            for (std::size_t p = points.size(); p-- > 0;) {
                extend(current_[w], on_page(points[p]));
            }
            tracks_.tracks.push_back(std::move(current_[w]));
        }
    }

    void draw_pads() {
        for (const Side side : {Side::near, Side::far}) {
            const std::vector<RowPad>& pads = rows_.side(side).pads;
            for (std::size_t p = 0; p < pads.size(); ++p) draw_pad(side, p, pads[p]);
        }
    }

    void draw_pad(Side side, std::size_t number, const RowPad& pad) {
        const bool near = side == Side::near;
        const auto place = [&](double y) {
            const Spot spot{pad.along_mm, y};
            return near ? spot : on_page(spot);
        };
        const bool upright = near || !turns_;
        tracks_.pads.push_back({side, number, place(-pad.behind_mm),
                                upright ? pad.width_mm : pad.length_mm,
                                upright ? pad.length_mm : pad.width_mm});
        if (!pad.ground) return;
        const double behind = pad.length_mm / 2 + rows_.rules.gap_mm + rows_.rules.via_mm / 2;
        const Spot via = place(-pad.behind_mm - behind);
        tracks_.tracks.push_back(
            {*pad.net, {}, CopperLayer::top, {tracks_.pads.back().middle, via}});
        tracks_.vias.push_back({*pad.net, via});
    }

    void mirror() {
        for (DrawnPad& pad : tracks_.pads) pad.middle.x_mm = -pad.middle.x_mm;
        for (Via& via : tracks_.vias) via.at.x_mm = -via.at.x_mm;
        for (Track& track : tracks_.tracks) {
            for (Spot& spot : track.points) spot.x_mm = -spot.x_mm;
        }
    }

    const PadRows& rows_;
    const Escape& escape_;
    const std::vector<Dive>& dives_;
    StagePlan plan_;
    bool turns_;
    std::array<std::vector<ExitWay>, 2> ways_;
    std::array<double, 2> mouths_{};
    std::vector<std::size_t> order_;  ///< the wire in each column
    std::vector<Track> current_;      ///< by wire, the stretch being drawn
    double shift_ = 0.0;              ///< of the far row along the near one
    double spare_ = 0.0;              ///< straight run left over
    double front_ = 0.0;              ///< the far row's front line
    double base_ = 0.0;               ///< where a turned row has its origin
    Tracks tracks_;
};

}  // namespace

Tracks draw_tracks(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives) {
    return Draughtsman(rows, escape, dives).draw();
}

double length_of(const Track& track) {
    double length = 0.0;
    for (std::size_t p = 1; p < track.points.size(); ++p) {
        length += std::hypot(track.points[p].x_mm - track.points[p - 1].x_mm,
                             track.points[p].y_mm - track.points[p - 1].y_mm);
    }
    return length;
}

}  // namespace pinfold
