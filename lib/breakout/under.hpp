// Ways under: how a trace leaves a back row on the bottom layer, beneath the rows before it.
#pragma once

#include "breakout/rows.hpp"

namespace pinfold {

/// Where the via of a surface pad stands: behind it, seen from the channel, in its row's frame.
Spot via_behind(const RowPad& pad, const TrackRules& rules);

/// Tracks that pass side by side between two traces of the front row on the other layer; between
/// two plated holes no more than on the top one.
int under_capacity(const PadRow& row, const TrackRules& rules);

/// The way on the bottom layer from a pad of the last row to the mouth of the channel at `to_mm`
/// along the row: from a plated hole itself, else from the via behind the pad. Nothing if the holes
/// of other pads, or vias that stand or may stand behind them, are in its way.
std::vector<Spot> way_under(const PadRow& row, std::size_t pad, double to_mm,
                            const TrackRules& rules);

}  // namespace pinfold
