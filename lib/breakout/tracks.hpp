// Tracks: the drawing of a breakout, copper by copper, at true scale.
#pragma once

#include "breakout/layers.hpp"

namespace pinfold {

enum class CopperLayer { top, bottom };

/// One stretch of track on one layer; its segments run at 0, 45 or 90 degrees.
struct Track {
    std::size_t net = 0;
    std::optional<std::size_t> wire;  ///< none: the stub from a ground pad to its via
    CopperLayer layer = CopperLayer::top;
    std::vector<Spot> points;
};

/// A plated hole that takes a net from one layer to the other.
struct Via {
    std::size_t net = 0;
    Spot at;
    std::optional<std::size_t> wire = {};  ///< none: of a ground pad
};

/// A pad as drawn; it belongs to the pad of the same number on its side.
struct DrawnPad {
    Side side = Side::near;
    std::size_t pad = 0;
    Spot middle;
    double width_mm = 0.0;   ///< along x
    double height_mm = 0.0;  ///< along y
};

/// All copper of a breakout. x runs right, y up the page, from the middle of the near row's front
/// line; the ground plane is the bottom layer but for what runs in it.
struct Tracks {
    std::vector<DrawnPad> pads;
    std::vector<Track> tracks;
    std::vector<Via> vias;
    double needed_mm = 0.0;           ///< least distance of the two front lines
    std::optional<double> placed_mm;  ///< the one the board's file leaves
};

/// Draws the wires: out of the near row, aside to columns if any of them changes layer, dive after
/// dive, aside to the far row and into it, round a corner if the course turns.
Tracks draw_tracks(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives);

double length_of(const Track& track);

}  // namespace pinfold
