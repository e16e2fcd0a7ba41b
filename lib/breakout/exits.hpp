// Exits: how traces leave a row of pads, and where they then enter the channel between two rows.
#pragma once

#include <compare>

#include "breakout/under.hpp"

namespace pinfold {

/// How a trace gets from its pad to the channel: straight from the front row; from a row behind
/// through the gap left or right of its column, round an end of the row, or on the bottom layer
/// beneath the rows before it, to the gap left or right of its column.
enum class Exit { front, gap_left, gap_right, round_left, round_right, under_left, under_right };

inline bool goes_under(Exit exit) { return exit == Exit::under_left || exit == Exit::under_right; }
inline bool goes_round(Exit exit) { return exit == Exit::round_left || exit == Exit::round_right; }
inline bool leads_to_gap(Exit exit) { return exit != Exit::front && !goes_round(exit); }

/// Where a trace enters the channel; it tells which of two is further left.
struct Mouthing {
    int zone = 0;           ///< -1 round the left end, 0 through the row, 1 round the right end
    double along_mm = 0.0;  ///< of the column or gap; round an end: minus the pad's place
    int place = 0;          ///< among the traces of one gap
    friend auto operator<=>(const Mouthing&, const Mouthing&) = default;
};

/// Traces that fit between two pads of the foremost row.
int gap_capacity(const PadRow& row, const TrackRules& rules);

/// The ways a pad can leave its row, those without a detour or a via first. The last row alone
/// goes round or under. Throws InputError for a pad that has no way out.
std::vector<Exit> exits_of(const PadRow& row, std::size_t pad, const TrackRules& rules);

Mouthing mouthing_of(const PadRow& row, std::size_t pad, Exit exit);

/// Whether a pad may leave its row so beside those whose exits are chosen: loops round the two ends
/// must not cross behind the row, and gaps hold only so many traces.
bool fits_beside(const PadRow& row, const std::vector<std::optional<Exit>>& chosen, std::size_t pad,
                 Exit way, const TrackRules& rules);

/// A way out of a row in its own frame: x along it, y towards the channel from the front line.
struct ExitWay {
    std::vector<Spot> points;  ///< from the pad's middle to the mouth of the channel
    /// The point at which it goes down to the bottom layer: 0, a plated hole, or else a via.
    std::optional<std::size_t> dips_at = {};
};

/// The way of each pad that has an exit; pads without one have no points. All ways end at
/// `mouth_mm(row, rules)`, at least a track and a gap apart.
std::vector<ExitWay> exit_ways(const PadRow& row, const std::vector<std::optional<Exit>>& exits,
                               const TrackRules& rules);

/// How far in front of a row the channel begins: past all pads and their gaps.
double mouth_mm(const PadRow& row, const TrackRules& rules);

}  // namespace pinfold
