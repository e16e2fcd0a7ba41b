// Matching: meanders that make traces of a breakout alike, drawn where there is room.
#pragma once

#include "breakout/tracks.hpp"

namespace pinfold {

/// Bumps that lengthen a trace: out at 45 degrees, along, back at 45 degrees.
struct Meander {
    double extra_mm = 0.0;
    int bumps = 0;
    double height_mm = 0.0;  ///< of each bump; each adds 2 (root 2 - 1) of it
    bool fits = false;       ///< and so is drawn
};

/// Lengthens each of these wires by `extra_mm`, all with the same bumps: the fewest for which each
/// wire has room beside its straight stretches on the top layer, over unbroken plane.
///
/// Where one of them has none, nothing is drawn: bumps of `usual_bump_mm` are told, and `fits` is
/// false. What is less than `least_extra_mm` needs no bumps.
Meander draw_meander(Tracks& tracks, const std::vector<std::size_t>& wires, double extra_mm,
                     const TrackRules& rules);
inline constexpr double least_extra_mm = 0.005;  ///< finer than any board is made; invented
inline constexpr double usual_bump_mm = 0.6;     ///< invented
inline constexpr double highest_bump_mm = 1.5;   ///< invented

/// Length of each wire from pad to pad, in millimetres; ways through vias are not counted.
std::vector<double> wire_lengths(const Tracks& tracks, std::size_t wires);

}  // namespace pinfold
