#include "breakout/channel.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace pinfold {
namespace {

constexpr double root2 = 1.4142135623730951;

}  // namespace

StagePlan::StagePlan(const TrackRules& rules, bool has_vias_abreast) {
    const double reach = rules.via_reach();
    const double via_to_via = rules.via_mm + rules.gap_mm;
    column = std::max(reach, root2 * rules.spacing());
    // Vias in neighbouring columns: abreast, or one reach further on.
    const bool too_near = std::hypot(column, reach) < via_to_via;
    if (has_vias_abreast || too_near) column = std::max(column, via_to_via);
    // So that a trace that comes into the column passes the via below it, and one that leaves
    // it the via above.
    aside = std::max(0.0, root2 * reach - column);
    up = aside + root2 * reach;
    height = up + reach;
}

WireChannel::WireChannel(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives)
    : rows_(rows),
      escape_(escape),
      dives_(dives),
      below_(below_of(rows, escape, dives)),
      plan_(rows.rules, any(&Below::rises) || any(&Below::sinks)) {
    for (const std::size_t side : {0, 1}) {
        ways_[side] = exit_ways(rows.sides[side], escape.exits[side], rows.rules);
        mouths_[side] = pinfold::mouth_mm(rows.sides[side], rows.rules);
    }
    place_far_row();
    rise_from_holes();
}

/// A via less is not worth a long slit in the plane.
void WireChannel::rise_from_holes() {
    if (dives_.empty()) return;
    const double near = mouths_[0] + river(near_order(), near_places(), columns()).height_mm;
    const double far = mouths_[1] + river(far_order(), columns(), far_places()).height_mm;
    for (std::size_t w = 0; w < count(); ++w) {
        const auto is_under = [&](std::size_t side) {
            return goes_under(*escape_.exits[side][escape_.wires[w].pads[side]]);
        };
        Below& below = below_[w];
        below.begins = below.begins && (is_under(0) || near <= longest_from_hole_mm);
        below.ends = below.ends && (is_under(1) || far <= longest_from_hole_mm);
    }
}

const ExitWay& WireChannel::way(std::size_t wire, Side side) const {
    const auto number = static_cast<std::size_t>(side);
    return ways_[number][escape_.wires[wire].pads[number]];
}

bool WireChannel::any(bool Below::*what) const { return std::ranges::any_of(below_, what); }

bool WireChannel::has_columns() const {
    return !dives_.empty() || any(&Below::rises) || any(&Below::sinks);
}

std::vector<std::size_t> WireChannel::near_order() const {
    std::vector<std::size_t> order(count());
    std::iota(order.begin(), order.end(), std::size_t{0});
    return order;
}

std::vector<std::size_t> WireChannel::far_order() const {
    std::vector<std::size_t> order(count());
    for (std::size_t w = 0; w < count(); ++w) order[escape_.wires[w].far_place] = w;
    return order;
}

std::vector<double> WireChannel::near_places() const {
    std::vector<double> places;
    for (std::size_t w = 0; w < count(); ++w) {
        places.push_back(way(w, Side::near).points.back().x_mm);
    }
    return places;
}

std::vector<double> WireChannel::far_places() const {
    std::vector<double> places;
    for (const std::size_t w : far_order()) {
        places.push_back(way(w, Side::far).points.back().x_mm + shift_);
    }
    return places;
}

/// Columns in the middle between the two rows' traces.
std::vector<double> WireChannel::columns() const {
    double middle = 0.0;
    for (const auto& places : {near_places(), far_places()}) {
        for (const double place : places) middle += place / static_cast<double>(2 * count());
    }
    std::vector<double> places;
    for (std::size_t c = 0; c < count(); ++c) {
        const double from_middle = static_cast<double>(c) - static_cast<double>(count() - 1) / 2.0;
        places.push_back(middle + from_middle * plan_.column);
    }
    return places;
}

double WireChannel::far_reach_mm() const {
    const TrackRules& rules = rows_.rules;
    double most = -1e9;
    for (std::size_t w = 0; w < count(); ++w) {
        most = std::max(most, way(w, Side::far).points.back().x_mm);
    }
    for (const RowPad& pad : rows_.side(Side::far).pads) {
        const double half = std::max(pad.width_mm, rules.via_mm) / 2;
        most = std::max(most, pad.along_mm + half + rules.gap_mm + rules.track_mm / 2);
    }
    return most;
}

/// Settles where the far row is, and the straight run that is left over.
void WireChannel::place_far_row() {
    const auto& placed = rows_.placed_front_mm;
    if (turns() && placed) shift_ = *placed - mouths_[1] - cut_mm() - far_reach_mm();
    const double needed = least_height();
    needed_ = turns() ? needed + cut_mm() : needed + mouths_[1];
    if (placed) {
        placed_ = turns() ? -far_reach_mm() : *placed;
        spare_ = std::max(0.0, *placed_ - needed_);
    }
}

/// Where the channel ends above the near front line if nothing is left over.
double WireChannel::least_height() const {
    const double begin = mouths_[0];
    if (!has_columns()) return begin + river(near_order(), near_places(), far_places()).height_mm;
    return begin + river(near_order(), near_places(), columns()).height_mm + lines().end +
           river(far_order(), columns(), far_places()).height_mm;
}

Lines WireChannel::lines() const {
    const double reach = rows_.rules.via_reach();
    Lines line;
    line.end = reach;
    if (any(&Below::rises)) {
        line.rise = line.end;
        line.end += reach;
    }
    line.dives = line.end;
    line.end += plan_.height * static_cast<double>(stages());
    if (any(&Below::sinks)) {
        line.sink = line.end;
        line.end += reach;
    }
    return line;
}

std::size_t WireChannel::stages() const {
    return dives_.empty() ? 0 : std::ranges::max(dives_, {}, &Dive::stage).stage + 1;
}

River WireChannel::river(const std::vector<std::size_t>& order, const std::vector<double>& from,
                         const std::vector<double>& to) const {
    std::vector<Current> currents;
    for (std::size_t c = 0; c < order.size(); ++c) {
        currents.push_back({from[c], to[c], escape_.wires[order[c]].net});
    }
    return lay_river(currents, rows_.rules.spacing());
}

}  // namespace pinfold
