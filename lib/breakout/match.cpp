#include "breakout/match.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

constexpr double gain_per_height = 2 * 0.41421356237309503;  ///< 2 (root 2 - 1)
/// A straight stretch with its direction: places are told as along it and aside, the side that the
/// bumps are on counting up.
class TrackStretch {
public:
    TrackStretch(const Spot& from, const Spot& to, double side)
        : from_(from), length_(std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm)) {
        along_ = {(to.x_mm - from.x_mm) / length_, (to.y_mm - from.y_mm) / length_};
        aside_ = {-side * along_.y_mm, side * along_.x_mm};
    }

    double length() const { return length_; }

    Spot seen(const Spot& spot) const {
        const Spot off{spot.x_mm - from_.x_mm, spot.y_mm - from_.y_mm};
        return {off.x_mm * along_.x_mm + off.y_mm * along_.y_mm,
                off.x_mm * aside_.x_mm + off.y_mm * aside_.y_mm};
    }

    Spot on_page(double along, double aside) const {
        return {from_.x_mm + along * along_.x_mm + aside * aside_.x_mm,
                from_.y_mm + along * along_.y_mm + aside * aside_.y_mm};
    }

private:
    Spot from_;
    double length_;
    Spot along_, aside_;
};

struct Interval {
    double begin = 0.0;
    double end = 0.0;
    double length() const { return end - begin; }
};

/// Where copper from `a` to `b` is in the way of bumps that reach up to `height`, copper and gap
/// included. What lies on the other side the stretch itself keeps away from.
std::optional<Interval> blocked_by(Spot a, Spot b, double height, double reach) {
    if (a.y_mm > b.y_mm) std::swap(a, b);
    if (b.y_mm <= hair || a.y_mm >= height + reach - hair) return std::nullopt;
    const double rise = b.y_mm - a.y_mm;
    const auto at = [&](double y) {
        const double share = rise > hair ? std::clamp((y - a.y_mm) / rise, 0.0, 1.0) : 0.0;
        return a.x_mm + share * (b.x_mm - a.x_mm);
    };
    const double low = at(0.0), high = rise > hair ? at(height + reach) : b.x_mm;
    return Interval{std::min(low, high) - reach, std::max(low, high) + reach};
}

std::array<Spot, 4> corners(const DrawnPad& pad) {
    const double w = pad.width_mm / 2, h = pad.height_mm / 2;
    const Spot& m = pad.middle;
    return {{{m.x_mm - w, m.y_mm - h},
             {m.x_mm + w, m.y_mm - h},
             {m.x_mm + w, m.y_mm + h},
             {m.x_mm - w, m.y_mm + h}}};
}

/// The longest interval from `begin` to `end` that nothing blocks.
Interval longest_free(std::vector<Interval> blocked, double begin, double end) {
    std::ranges::sort(blocked, {}, &Interval::begin);
    blocked.push_back({end, end});
    Interval best{begin, begin};
    double free_from = begin;
    for (const Interval& block : blocked) {
        const Interval free{free_from, std::min(block.begin, end)};
        if (free.length() > best.length() + hair) best = free;
        free_from = std::max(free_from, block.end);
    }
    return best;
}

/// Room for bumps beside one stretch of a track.
struct Room {
    std::size_t track = 0;
    std::size_t point = 0;  ///< at which the stretch begins
    double side = 1.0;
    Interval along;
};

/// Draws bumps of one height beside the stretches of one wire.
class BumpPen {
public:
    BumpPen(Tracks& tracks, std::size_t wire, double height, const TrackRules& rules)
        : tracks_(tracks), wire_(wire), height_(height), rules_(rules) {}

    /// Whether all of them found room; if not, some may be drawn.
    bool draw(int bumps) {
        while (bumps > 0) {
            const Room room = longest_room();
            const int held = std::min(bumps, held_by(room));
            if (held == 0) return false;
            lay(room, held);
            bumps -= held;
        }
        return true;
    }

private:
    /// From one bump's beginning to the next one's.
    double step() const { return 2 * height_ + 2 * rules_.spacing(); }

    int held_by(const Room& room) const {
        return static_cast<int>(
            std::floor((room.along.length() + rules_.spacing() + hair) / step()));
    }

    Room longest_room() const {
        Room best;
        for (std::size_t t = 0; t < tracks_.tracks.size(); ++t) {
            const Track& track = tracks_.tracks[t];
            // Bumps in the bottom layer would slit the plane.
            if (track.wire != wire_ || track.layer == CopperLayer::bottom) continue;
            for (std::size_t p = 0; p + 1 < track.points.size(); ++p) {
                for (const double side : {1.0, -1.0}) {
                    const Interval along = free_beside(track, p, side);
                    if (along.length() > best.along.length() + hair) best = {t, p, side, along};
                }
            }
        }
        return best;
    }

    Interval free_beside(const Track& track, std::size_t point, double side) const {
        const TrackStretch stretch(track.points[point], track.points[point + 1], side);
        // So far from its ends that the corners there stay as they are.
        const double begin = rules_.spacing(), end = stretch.length() - rules_.spacing();
        if (end - begin < step() - rules_.spacing()) return {};
        const double own = rules_.gap_mm + rules_.track_mm / 2;
        std::vector<Interval> blocked;
        const auto meet = [&](const Spot& a, const Spot& b, double half) {
            const auto block = blocked_by(stretch.seen(a), stretch.seen(b), height_, own + half);
            if (block) blocked.push_back(*block);
        };
        // Of either layer: a bump over a run in the plane would cross it.
        for (const Track& other : tracks_.tracks) {
            for (std::size_t p = 0; p + 1 < other.points.size(); ++p) {
                if (&other == &track && p == point) continue;
                meet(other.points[p], other.points[p + 1], rules_.track_mm / 2);
            }
        }
        for (const Via& via : tracks_.vias) meet(via.at, via.at, rules_.via_mm / 2);
        for (const DrawnPad& pad : tracks_.pads) {
            const auto corner = corners(pad);
            for (std::size_t c = 0; c < 4; ++c) meet(corner[c], corner[(c + 1) % 4], 0.0);
        }
        return longest_free(std::move(blocked), begin, end);
    }

    void lay(const Room& room, int bumps) {
        std::vector<Spot>& points = tracks_.tracks[room.track].points;
        const TrackStretch stretch(points[room.point], points[room.point + 1], room.side);
        const double taken = bumps * step() - rules_.spacing();
        double x = room.along.begin + (room.along.length() - taken) / 2;
        std::vector<Spot> bent;
        for (int bump = 0; bump < bumps; ++bump, x += step()) {
            const double top = x + height_ + rules_.spacing();
            bent.push_back(stretch.on_page(x, 0.0));
            bent.push_back(stretch.on_page(x + height_, height_));
            bent.push_back(stretch.on_page(top, height_));
            bent.push_back(stretch.on_page(top + height_, 0.0));
        }
        points.insert(points.begin() + static_cast<long>(room.point) + 1, bent.begin(), bent.end());
    }

    Tracks& tracks_;
    std::size_t wire_;
    double height_;
    const TrackRules& rules_;
};

int bumps_for(double extra, double height) {
    return static_cast<int>(std::ceil(extra / (gain_per_height * height) - hair));
}

}  // namespace

Meander draw_meander(Tracks& tracks, const std::vector<std::size_t>& wires, double extra,
                     const TrackRules& rules) {
    if (extra < least_extra_mm) return {extra, 0, 0.0, true};
    // Bumps flatter than half a track are none.
    const int most = std::max(1, bumps_for(extra, rules.track_mm / 2));
    for (int bumps = bumps_for(extra, highest_bump_mm); bumps <= most; ++bumps) {
        const double height = extra / (gain_per_height * bumps);
        Tracks trial = tracks;
        const bool fits = std::ranges::all_of(wires, [&](std::size_t wire) {
            return BumpPen(trial, wire, height, rules).draw(bumps);
        });
        if (!fits) continue;
        tracks = std::move(trial);
        return {extra, bumps, height, true};
    }
    const int bumps = bumps_for(extra, usual_bump_mm);
    return {extra, bumps, extra / (gain_per_height * bumps), false};
}

std::vector<double> wire_lengths(const Tracks& tracks, std::size_t wires) {
    std::vector<double> lengths(wires, 0.0);
    for (const Track& track : tracks.tracks) {
        if (track.wire) lengths[*track.wire] += length_of(track);
    }
    return lengths;
}

}  // namespace pinfold
