#include "breakout/tracks.hpp"

#include <algorithm>
#include <cmath>

#include "breakout/channel.hpp"

namespace pinfold {
namespace {

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

class Draughtsman {
public:
    Draughtsman(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives)
        : rows_(rows),
          escape_(escape),
          dives_(dives),
          channel_(rows, escape, dives),
          order_(channel_.near_order()) {}

    Tracks draw() {
        tracks_.needed_mm = channel_.needed_mm();
        tracks_.placed_mm = channel_.placed_mm();
        begin_wires();
        end_wires(run_channel(channel_.mouth_mm(Side::near)));
        draw_pads();
        if (rows_.course == Course::to_left) mirror();
        return std::move(tracks_);
    }

private:
    const Route& wire(std::size_t w) const { return escape_.wires[w]; }
    bool turns() const { return channel_.turns(); }

    /// From one mouth to the other.
    double run_channel(double y) {
        const std::vector<double> near = channel_.near_places(), far = channel_.far_places();
        const double spare = channel_.spare_mm();
        if (!channel_.has_columns()) return run_river(y + spare / 2, near, far) + spare / 2;
        const std::vector<double> column = channel_.columns();
        y = run_river(y, near, column) + spare / 2;
        const Lines line = channel_.lines();
        change_all(&Below::rises, y + line.rise, CopperLayer::top);
        run_dives(y + line.dives);
        change_all(&Below::sinks, y + line.sink, CopperLayer::bottom);
        return run_river(y + line.end + spare / 2, column, far);
    }

    void begin_wires() {
        for (std::size_t w = 0; w < escape_.wires.size(); ++w) {
            const ExitWay& out = channel_.way(w, Side::near);
            const bool in_hole = channel_.below()[w].begins && out.dips_at.value_or(0) == 0;
            const CopperLayer layer = in_hole ? CopperLayer::bottom : CopperLayer::top;
            current_.push_back({wire(w).net, w, layer, {}});
            for (std::size_t p = 0; p < out.points.size(); ++p) {
                const bool dips = p > 0 && out.dips_at == p;
                if (dips) change_layer(w, out.points[p], CopperLayer::bottom);
                extend(current_[w], out.points[p]);
            }
        }
    }

    void change_all(bool Below::*what, double y, CopperLayer layer) {
        const std::vector<double> column = channel_.columns();
        for (std::size_t c = 0; c < escape_.wires.size(); ++c) {
            if (channel_.below()[order_[c]].*what) change_layer(order_[c], {column[c], y}, layer);
        }
    }

    double run_river(double y, const std::vector<double>& from, const std::vector<double>& to) {
        const River laid = channel_.river(order_, from, to);
        for (std::size_t c = 0; c < from.size(); ++c) {
            const double begins = y + laid.begins_mm[c];
            Track& track = current_[order_[c]];
            extend(track, {from[c], begins});
            extend(track, {to[c], begins + std::abs(to[c] - from[c])});
        }
        return y + laid.height_mm;
    }

    void run_dives(double y) {
        const std::vector<double> column = channel_.columns();
        for (std::size_t stage = 0; stage < channel_.stages(); ++stage) {
            for (const Dive& dive : dives_) {
                if (dive.stage == stage) draw_dive(dive, y, column);
            }
            y += channel_.plan().height;
        }
    }

    void draw_dive(const Dive& dive, double y, const std::vector<double>& column) {
        const bool right = dive.to > dive.from;
        for (std::size_t c = dive.from; c != dive.to; right ? ++c : --c) {
            const std::size_t next = right ? c + 1 : c - 1;
            Track& aside = current_[order_[next]];
            extend(aside, {column[next], y + channel_.plan().aside});
            extend(aside, {column[c], y + channel_.plan().aside + channel_.plan().column});
            std::swap(order_[c], order_[next]);
        }
        const Spot down{column[dive.from], y};
        const Spot up{column[dive.to], y + channel_.plan().up};
        const Below& below = channel_.below()[dive.wire];
        if (below.rises || !below.begins) change_layer(dive.wire, down, CopperLayer::bottom);
        extend(current_[dive.wire], down);
        const double across = std::abs(up.x_mm - down.x_mm);
        const double back = (right ? 1.0 : -1.0) * std::min(across, channel_.plan().up);
        extend(current_[dive.wire], {up.x_mm - back, down.y_mm});
        extend(current_[dive.wire], {up.x_mm - back, up.y_mm - std::abs(back)});
        extend(current_[dive.wire], up);
        if (below.sinks || !below.ends) change_layer(dive.wire, up, CopperLayer::top);
    }

    void change_layer(std::size_t w, const Spot& at, CopperLayer layer) {
        extend(current_[w], at);
        tracks_.tracks.push_back(std::move(current_[w]));
        const bool is_there = std::ranges::any_of(tracks_.vias, [&](const Via& via) {
            return via.net == wire(w).net && same_place(via.at, at);
        });
        if (!is_there) tracks_.vias.push_back({wire(w).net, at, w});
        current_[w] = {wire(w).net, w, layer, {at}};
    }

    /// From the far row's own frame onto the page.
    Spot on_page(const Spot& spot) const {
        if (turns()) return {front_ - spot.y_mm, base_ - spot.x_mm};
        return {spot.x_mm + channel_.shift_mm(), front_ - spot.y_mm};
    }

    void end_wires(double y) {
        base_ = rows_.placed_front_mm && tracks_.needed_mm <= *tracks_.placed_mm + hair
                    ? 0.0
                    : y + channel_.cut_mm() + channel_.far_reach_mm();
        front_ = turns() ? channel_.far_reach_mm() + channel_.shift_mm() + channel_.cut_mm() +
                               channel_.mouth_mm(Side::far)
                         : y + channel_.mouth_mm(Side::far);
        for (std::size_t w = 0; w < escape_.wires.size(); ++w) {
            const std::vector<Spot>& points = channel_.way(w, Side::far).points;
            if (turns()) {
                const double x = points.back().x_mm;
                extend(current_[w], {x + channel_.shift_mm(), base_ - x - channel_.cut_mm()});
                extend(current_[w], {x + channel_.shift_mm() + channel_.cut_mm(), base_ - x});
            }
            for (std::size_t p = points.size(); p-- > 0;) {
                extend(current_[w], on_page(points[p]));
                const bool rises = p > 0 && channel_.way(w, Side::far).dips_at == p;
                if (rises) change_layer(w, on_page(points[p]), CopperLayer::top);
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
        const bool upright = near || !turns();
        tracks_.pads.push_back({side, number, place(-pad.behind_mm),
                                upright ? pad.width_mm : pad.length_mm,
                                upright ? pad.length_mm : pad.width_mm});
        if (!pad.ground || pad.hole_mm > 0) return;
        const Spot via = place(via_behind(pad, rows_.rules).y_mm);
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
    WireChannel channel_;
    std::vector<std::size_t> order_;  ///< the wire in each column
    std::vector<Track> current_;      ///< by wire, the stretch being drawn
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
