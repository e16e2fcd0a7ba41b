// Matching: how long the traces of a breakout are, and what it takes to make pairs alike.
#pragma once

#include "breakout/tracks.hpp"

namespace pinfold {

/// Bumps that lengthen a trace: out at 45 degrees, along, back at 45 degrees.
struct Meander {
    double extra_mm = 0.0;
    int bumps = 0;
    double height_mm = 0.0;  ///< of each bump; each adds 2 (root 2 - 1) of it
    bool fits = false;       ///< beside one straight stretch of the trace as drawn
};

/// What lies free beside the straight stretches of one wire.
struct Room {
    double length_mm = 0.0;
    double height_mm = 0.0;  ///< that a bump may have
};

/// The meander that adds `extra_mm` in one of these rooms with the fewest bumps; without a room
/// that holds it, bumps of the height of `usual_bump_mm`, and `fits` is false.
Meander meander_for(double extra_mm, const std::vector<Room>& rooms, const TrackRules& rules);
inline constexpr double usual_bump_mm = 0.6;    ///< invented
inline constexpr double highest_bump_mm = 1.5;  ///< invented

/// The rooms beside every straight stretch of a wire, by the copper of other nets.
std::vector<Room> rooms_of(const Tracks& tracks, std::size_t wire, const TrackRules& rules);

/// Length of each wire from pad to pad, in millimetres; ways through vias are not counted.
std::vector<double> wire_lengths(const Tracks& tracks, std::size_t wires);

}  // namespace pinfold
