#include "breakout/under.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "breakout/exits.hpp"

namespace pinfold {
namespace {

using Line = std::array<Spot, 2>;

double distance(const Spot& spot, const Line& line) {
    const double dx = line[1].x_mm - line[0].x_mm, dy = line[1].y_mm - line[0].y_mm;
    const double square = dx * dx + dy * dy;
    const double along = (spot.x_mm - line[0].x_mm) * dx + (spot.y_mm - line[0].y_mm) * dy;
    const double share = square > 0 ? std::clamp(along / square, 0.0, 1.0) : 0.0;
    return std::hypot(spot.x_mm - line[0].x_mm - share * dx, spot.y_mm - line[0].y_mm - share * dy);
}

/// From a pad to a line; a line that crosses it has corners on both sides.
double distance(const RowPad& pad, const Line& line) {
    const double w = pad.width_mm / 2, l = pad.length_mm / 2;
    const double x = pad.along_mm, y = -pad.behind_mm;
    const std::array<Spot, 4> corners{
        {{x - w, y - l}, {x + w, y - l}, {x + w, y + l}, {x - w, y + l}}};
    const auto side_of = [&](const Spot& spot) {
        return (line[1].x_mm - line[0].x_mm) * (spot.y_mm - line[0].y_mm) -
               (line[1].y_mm - line[0].y_mm) * (spot.x_mm - line[0].x_mm);
    };
    const auto apart = [](double a0, double a1, double low, double high) {
        return std::max(a0, a1) <= low || std::min(a0, a1) >= high;
    };
    std::array<double, 4> sides{};
    std::ranges::transform(corners, sides.begin(), side_of);
    const auto [least, most] = std::ranges::minmax(sides);
    const bool crosses = least < 0 && most > 0 &&
                         !apart(line[0].x_mm, line[1].x_mm, x - w, x + w) &&
                         !apart(line[0].y_mm, line[1].y_mm, y - l, y + l);
    if (crosses) return 0.0;
    double nearest = 1e9;
    for (std::size_t c = 0; c < 4; ++c) {
        const Line edge{corners[c], corners[(c + 1) % 4]};
        nearest = std::min({nearest, distance(corners[c], line), distance(line[0], edge),
                            distance(line[1], edge)});
    }
    return nearest;
}

bool is_clear_of(const RowPad& pad, const Line& line, const TrackRules& rules) {
    if (pad.hole_mm > 0) return distance(pad, line) >= rules.gap_mm + rules.track_mm / 2 - hair;
    return distance(via_behind(pad, rules), line) >= rules.via_reach() - hair;
}

bool is_clear(const PadRow& row, std::size_t own, const std::vector<Spot>& points,
              const TrackRules& rules) {
    for (std::size_t p = 0; p < row.pads.size(); ++p) {
        const RowPad& pad = row.pads[p];
        // Surface pads in the rows before have vias if they are ground, those beside it may.
        const bool stands = pad.hole_mm > 0 || pad.ground || pad.row == row.pads[own].row;
        if (p == own || !stands) continue;
        for (std::size_t i = 0; i + 1 < points.size(); ++i) {
            if (!is_clear_of(pad, {points[i], points[i + 1]}, rules)) return false;
        }
    }
    return true;
}

/// Vias in neighbouring columns of the last row keep their distance.
bool has_room_for_via(const PadRow& row, const TrackRules& rules) {
    return row.pitch_mm >= rules.via_mm + rules.gap_mm - hair;
}

}  // namespace

Spot via_behind(const RowPad& pad, const TrackRules& rules) {
    return {pad.along_mm, -pad.behind_mm - pad.length_mm / 2 - rules.gap_mm - rules.via_mm / 2};
}

int under_capacity(const PadRow& row, const TrackRules& rules) {
    const bool holes = std::ranges::any_of(
        row.pads, [](const RowPad& pad) { return pad.row == 0 && pad.hole_mm > 0; });
    if (holes) return gap_capacity(row, rules);
    return std::max(0, static_cast<int>(std::floor(row.pitch_mm / rules.spacing() + hair)) - 1);
}

std::vector<Spot> way_under(const PadRow& row, std::size_t p, double to_mm,
                            const TrackRules& rules) {
    const RowPad& pad = row.pads[p];
    if (pad.hole_mm <= 0 && !has_room_for_via(row, rules)) return {};
    const Spot middle{pad.along_mm, -pad.behind_mm};
    const Spot begin = pad.hole_mm > 0 ? middle : via_behind(pad, rules);
    const double mouth = mouth_mm(row, rules);
    const double aside = std::abs(to_mm - pad.along_mm);
    // Aside at once, and between the pads before it; or straight on, and aside beyond them.
    for (const double turns : {middle.y_mm, mouth - aside}) {
        std::vector<Spot> points{
            begin, {pad.along_mm, turns}, {to_mm, turns + aside}, {to_mm, mouth}};
        const bool turns_in_time = turns >= middle.y_mm && turns + aside <= mouth + hair;
        if (turns_in_time && is_clear(row, p, points, rules)) return points;
    }
    return {};
}

}  // namespace pinfold
