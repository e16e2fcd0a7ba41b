#include "breakout/match.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

constexpr double gain_per_height = 2 * 0.41421356237309503;  ///< 2 (root 2 - 1)

double along_of(double height, const TrackRules& rules) { return 2 * height + 2 * rules.spacing(); }

/// A straight stretch with its direction: places are told as along and aside of it.
class Stretch {
public:
    Stretch(const Spot& from, const Spot& to)
        : from_(from), length_(std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm)) {
        along_ = {(to.x_mm - from.x_mm) / length_, (to.y_mm - from.y_mm) / length_};
    }

    double length() const { return length_; }

    Spot seen(const Spot& spot) const {
        const Spot off{spot.x_mm - from_.x_mm, spot.y_mm - from_.y_mm};
        return {off.x_mm * along_.x_mm + off.y_mm * along_.y_mm,
                off.y_mm * along_.x_mm - off.x_mm * along_.y_mm};
    }

    /// How near a segment comes on the left (`side` 1) or right (-1), as far as it is abreast of
    /// the stretch or within `reach` of its ends.
    double nearest(const Spot& a, const Spot& b, double side, double reach) const {
        Spot one = seen(a), other = seen(b);
        if (one.x_mm > other.x_mm) std::swap(one, other);
        const double begin = std::max(one.x_mm, -reach);
        const double end = std::min(other.x_mm, length_ + reach);
        if (begin > end) return 1e9;
        const double run = other.x_mm - one.x_mm;
        const auto aside = [&](double x) {
            const double share = run > 0 ? (x - one.x_mm) / run : 0.0;
            return side * (one.y_mm + share * (other.y_mm - one.y_mm));
        };
        double ends[] = {aside(begin), aside(end)};
        if (run <= 0) ends[1] = side * other.y_mm;
        const double least = std::min(ends[0], ends[1]);
        if (std::max(ends[0], ends[1]) <= 0.0) return 1e9;  // on the other side
        return std::max(0.0, least);
    }

private:
    Spot from_;
    double length_;
    Spot along_;
};

std::array<Spot, 4> corners(const DrawnPad& pad) {
    const double w = pad.width_mm / 2, h = pad.height_mm / 2;
    const Spot& m = pad.middle;
    return {{{m.x_mm - w, m.y_mm - h},
             {m.x_mm + w, m.y_mm - h},
             {m.x_mm + w, m.y_mm + h},
             {m.x_mm - w, m.y_mm + h}}};
}

/// How high a bump may be on one side of a stretch.
double free_beside(const Tracks& tracks, const Track& track, const Stretch& stretch, double side,
                   const TrackRules& rules) {
    const double own = rules.gap_mm + rules.track_mm / 2;
    double free = 1e9;
    const auto meet = [&](const Spot& a, const Spot& b, double half) {
        free = std::min(free, stretch.nearest(a, b, side, own + half) - half - own);
    };
    for (const Track& other : tracks.tracks) {
        if (other.wire == track.wire || other.layer != track.layer) continue;
        for (std::size_t p = 1; p < other.points.size(); ++p) {
            meet(other.points[p - 1], other.points[p], rules.track_mm / 2);
        }
    }
    for (const Via& via : tracks.vias) {
        if (via.net != track.net) meet(via.at, via.at, rules.via_mm / 2);
    }
    if (track.layer == CopperLayer::bottom) return free;
    for (const DrawnPad& pad : tracks.pads) {
        const auto corner = corners(pad);
        for (std::size_t c = 0; c < 4; ++c) meet(corner[c], corner[(c + 1) % 4], 0.0);
    }
    return free;
}

}  // namespace

std::vector<Room> rooms_of(const Tracks& tracks, std::size_t wire, const TrackRules& rules) {
    std::vector<Room> rooms;
    for (const Track& track : tracks.tracks) {
        // Bumps in the bottom layer would slit the plane.
        if (track.wire != wire || track.layer == CopperLayer::bottom) continue;
        for (std::size_t p = 1; p < track.points.size(); ++p) {
            const Stretch stretch(track.points[p - 1], track.points[p]);
            for (const double side : {1.0, -1.0}) {
                const double free = free_beside(tracks, track, stretch, side, rules);
                if (free > rules.track_mm) rooms.push_back({stretch.length(), free});
            }
        }
    }
    return rooms;
}

Meander meander_for(double extra, const std::vector<Room>& rooms, const TrackRules& rules) {
    Meander best{extra, 0, 0.0, false};
    if (extra < 0.005) return {extra, 0, 0.0, true};
    for (const Room& room : rooms) {
        const double most = std::min({room.height_mm, highest_bump_mm, extra / gain_per_height});
        const int bumps = static_cast<int>(std::ceil(extra / (gain_per_height * most) - 1e-9));
        const double height = extra / (gain_per_height * bumps);
        if (bumps * along_of(height, rules) > room.length_mm) continue;
        if (!best.fits || bumps < best.bumps) best = {extra, bumps, height, true};
    }
    if (best.fits) return best;
    const int bumps = static_cast<int>(std::ceil(extra / (gain_per_height * usual_bump_mm)));
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
