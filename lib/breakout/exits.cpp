#include "breakout/exits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace pinfold {
namespace {

std::vector<double> front_columns(const PadRow& row) {
    std::vector<double> columns;
    for (const RowPad& pad : row.pads) {
        if (pad.row == 0) columns.push_back(pad.along_mm);
    }
    std::ranges::sort(columns);
    return columns;
}

/// The middles of the gaps between the pads of the foremost row. Beyond its ends run the loops.
std::vector<double> gap_middles(const PadRow& row) {
    const std::vector<double> columns = front_columns(row);
    std::vector<double> middles;
    for (std::size_t i = 1; i < columns.size(); ++i) {
        middles.push_back((columns[i - 1] + columns[i]) / 2);
    }
    return middles;
}

double middle_beside(const PadRow& row, double along, Exit exit) {
    const std::vector<double> middles = gap_middles(row);
    if (exit == Exit::gap_right || exit == Exit::under_right) {
        const auto at = std::ranges::lower_bound(middles, along - hair);
        return at == middles.end() ? along + 1e9 : *at;
    }
    const auto beyond = std::ranges::upper_bound(middles, along + hair);
    return beyond == middles.begin() ? along - 1e9 : *std::prev(beyond);
}

int last_row(const PadRow& row) { return std::ranges::max(row.pads, {}, &RowPad::row).row; }

/// Whether a trace can step aside into a gap before it meets the pads of the row ahead.
bool can_step(const PadRow& row, double aside, const TrackRules& rules) {
    const double between = row.depth_mm() / std::max(1, last_row(row));
    const double room = between - row.longest_mm() / 2 - rules.gap_mm - rules.track_mm / 2;
    return aside <= room + hair && aside <= 0.75 * row.pitch_mm;
}

/// Whether the way beneath is clear wherever in its gap the trace may come out.
bool can_go_under(const PadRow& row, std::size_t p, Exit exit, const TrackRules& rules) {
    const double along = row.pads[p].along_mm;
    const double middle = middle_beside(row, along, exit);
    const int capacity = under_capacity(row, rules);
    const bool is_beside = std::abs(middle - along) <= 0.75 * row.pitch_mm;
    const bool is_double = exit == Exit::under_right && std::abs(middle - along) < hair;
    if (capacity == 0 || !is_beside || is_double) return false;
    // Tracks that share a gap stand half a spacing apart from where fewer of them would.
    for (int half = 1 - capacity; half < capacity; ++half) {
        if (way_under(row, p, middle + half * rules.spacing() / 2, rules).empty()) return false;
    }
    return true;
}

double outer_edge(const PadRow& row, const TrackRules& rules, double direction) {
    double edge = -1e9;
    for (const RowPad& pad : row.pads) {
        edge =
            std::max(edge, direction * pad.along_mm + std::max(pad.width_mm / 2, rules.via_mm / 2));
    }
    return edge;
}

/// Pads that go round one end, the innermost loop first.
std::vector<std::size_t> loops(const PadRow& row, const std::vector<std::optional<Exit>>& exits,
                               Exit way) {
    std::vector<std::size_t> pads;
    for (std::size_t p = 0; p < exits.size(); ++p) {
        if (exits[p] == way) pads.push_back(p);
    }
    const double direction = way == Exit::round_left ? 1.0 : -1.0;
    std::ranges::sort(pads, {}, [&](std::size_t p) { return direction * row.pads[p].along_mm; });
    return pads;
}

/// Round the left end (direction -1) or the right one, in the loop `n` counted from within.
std::vector<Spot> way_round(const PadRow& row, const RowPad& pad, double direction, double n,
                            const TrackRules& rules) {
    const double x = direction * (outer_edge(row, rules, direction) + rules.gap_mm +
                                  rules.track_mm / 2 + n * rules.spacing());
    // Behind the pads and the ground vias that stand behind them.
    const double y = -row.depth_mm() - row.longest_mm() / 2 - 2 * rules.gap_mm - rules.via_mm -
                     rules.track_mm / 2 - n * rules.spacing();
    // A corner cut further would come too near a via that stands in it: 2 - root 2 of its reach.
    const double cut =
        std::min({rules.spacing(), 0.58 * rules.via_reach(), std::abs(x - pad.along_mm) / 2});
    return {{pad.along_mm, -pad.behind_mm},
            {pad.along_mm, y + cut},
            {pad.along_mm + direction * cut, y},
            {x - direction * cut, y},
            {x, y + cut},
            {x, mouth_mm(row, rules)}};
}

class Ways {
public:
    Ways(const PadRow& row, const std::vector<std::optional<Exit>>& exits, const TrackRules& rules)
        : row_(row), exits_(exits), rules_(rules), ways_(row.pads.size()) {}

    std::vector<ExitWay> find() {
        for (std::size_t p = 0; p < exits_.size(); ++p) {
            if (exits_[p] == Exit::front) leave(p, row_.pads[p].along_mm);
        }
        lead_through_gaps();
        for (const Exit way : {Exit::round_left, Exit::round_right}) {
            double n = 0.0;
            for (const std::size_t p : loops(row_, exits_, way)) {
                const double direction = way == Exit::round_left ? -1.0 : 1.0;
                ways_[p].points = way_round(row_, row_.pads[p], direction, n++, rules_);
            }
        }
        return std::move(ways_);
    }

private:
    /// Aside to a line along the channel, then straight.
    void leave(std::size_t p, double x) {
        const RowPad& pad = row_.pads[p];
        ways_[p].points.push_back({pad.along_mm, -pad.behind_mm});
        const double aside = std::abs(x - pad.along_mm);
        if (aside > hair) ways_[p].points.push_back({x, -pad.behind_mm + aside});
        ways_[p].points.push_back({x, mouth_mm(row_, rules_)});
    }

    void lead_to_gap(std::size_t p, double x) {
        if (!goes_under(*exits_[p])) {
            leave(p, x);
            return;
        }
        const RowPad& pad = row_.pads[p];
        ways_[p].points = way_under(row_, p, x, rules_);
        ways_[p].dips_at = 0;
        if (pad.hole_mm > 0) return;
        ways_[p].points.insert(ways_[p].points.begin(), {pad.along_mm, -pad.behind_mm});
        ways_[p].dips_at = 1;
    }

    void lead_through_gaps() {
        std::map<double, std::vector<std::size_t>> gaps;
        for (std::size_t p = 0; p < exits_.size(); ++p) {
            if (exits_[p] && leads_to_gap(*exits_[p])) {
                gaps[mouthing_of(row_, p, *exits_[p]).along_mm].push_back(p);
            }
        }
        for (auto& [middle, pads] : gaps) {
            std::ranges::sort(
                pads, {}, [&](std::size_t p) { return mouthing_of(row_, p, *exits_[p]).place; });
            const double first =
                middle - rules_.spacing() * static_cast<double>(pads.size() - 1) / 2;
            for (std::size_t i = 0; i < pads.size(); ++i) {
                lead_to_gap(pads[i], first + rules_.spacing() * static_cast<double>(i));
            }
        }
    }

    const PadRow& row_;
    const std::vector<std::optional<Exit>>& exits_;
    const TrackRules& rules_;
    std::vector<ExitWay> ways_;
};

}  // namespace

int gap_capacity(const PadRow& row, const TrackRules& rules) {
    double widest = 0.0;
    for (const RowPad& pad : row.pads) widest = std::max(widest, pad.width_mm);
    const double tracks = (row.pitch_mm - widest - rules.gap_mm) / rules.spacing();
    return std::max(0, static_cast<int>(std::floor(tracks + hair)));
}

std::vector<Exit> exits_of(const PadRow& row, std::size_t p, const TrackRules& rules) {
    const RowPad& pad = row.pads[p];
    if (pad.row == 0) return {Exit::front};
    std::vector<Exit> exits;
    if (gap_capacity(row, rules) > 0) {
        const double left = pad.along_mm - middle_beside(row, pad.along_mm, Exit::gap_left);
        const double right = middle_beside(row, pad.along_mm, Exit::gap_right) - pad.along_mm;
        if (can_step(row, left, rules)) exits.push_back(Exit::gap_left);
        if (right > hair && can_step(row, right, rules)) exits.push_back(Exit::gap_right);
    }
    if (pad.row == last_row(row)) {
        exits.push_back(Exit::round_left);
        exits.push_back(Exit::round_right);
        for (const Exit under : {Exit::under_left, Exit::under_right}) {
            if (can_go_under(row, p, under, rules)) exits.push_back(under);
        }
    }
    if (!exits.empty()) return exits;
    refuse(
        "breakout-rows",
        fmt::format("contact {} of port {} in row {} has no way out between the pads of the rows "
                    "before it; narrower tracks and gaps may have one",
                    pad.contact.contact + 1, pad.contact.port.port + 1, pad.row + 1));
}

Mouthing mouthing_of(const PadRow& row, std::size_t p, Exit exit) {
    const RowPad& pad = row.pads[p];
    switch (exit) {
        case Exit::front: return {0, pad.along_mm, 0};
        case Exit::round_left: return {-1, -pad.along_mm, 0};
        case Exit::round_right: return {1, -pad.along_mm, 0};
        // Whoever comes from a row further back passes nearer to the middle of the gap.
        case Exit::gap_right:
        case Exit::under_right: return {0, middle_beside(row, pad.along_mm, exit), -1000 + pad.row};
        case Exit::gap_left:
        case Exit::under_left: {
            const double middle = middle_beside(row, pad.along_mm, exit);
            return {0, middle, pad.along_mm - middle < hair ? 0 : 1000 - pad.row};
        }
    }
    return {};
}

std::vector<ExitWay> exit_ways(const PadRow& row, const std::vector<std::optional<Exit>>& exits,
                               const TrackRules& rules) {
    return Ways(row, exits, rules).find();
}

double mouth_mm(const PadRow& row, const TrackRules& rules) {
    return row.longest_mm() / 2 + rules.gap_mm + rules.track_mm / 2;
}

bool fits_beside(const PadRow& row, const std::vector<std::optional<Exit>>& chosen, std::size_t pad,
                 Exit way, const TrackRules& rules) {
    if (way == Exit::round_left) {
        return std::ranges::find(chosen, Exit::round_right) == chosen.end();
    }
    if (!leads_to_gap(way)) return true;
    const double gap = mouthing_of(row, pad, way).along_mm;
    int taken = 1;
    bool on_top = !goes_under(way);
    for (std::size_t p = 0; p < chosen.size(); ++p) {
        if (!chosen[p] || !leads_to_gap(*chosen[p])) continue;
        if (mouthing_of(row, p, *chosen[p]).along_mm != gap) continue;
        ++taken;
        on_top = on_top || !goes_under(*chosen[p]);
    }
    return taken <= (on_top ? gap_capacity(row, rules) : under_capacity(row, rules));
}

}  // namespace pinfold
