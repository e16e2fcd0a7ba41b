// Track rules: how wide copper is and how far apart, and whether that fits between the pads.
#pragma once

#include "design/design.hpp"

namespace pinfold {

/// How wide copper is and how far apart, in millimetres.
struct TrackRules {
    double track_mm = 0.15;
    double gap_mm = 0.15;
    double via_mm = 0.5;
    double hole_mm = 0.25;

    double spacing() const { return track_mm + gap_mm; }  ///< between middles of two tracks
    double via_reach() const { return via_mm / 2 + gap_mm + track_mm / 2; }  ///< of via and track
};

/// The rules a board of this pitch can be laid out by: track and gap are three tenths of the pitch
/// and 0.15 mm at most, a via is as wide as the pitch and 0.5 mm at most, its hole half of that;
/// common practice.
TrackRules usual_rules(double smallest_pitch_mm);

/// The usual rules but for what the board's file wants, and that but for what `asked` wants.
///
/// Throws InputError for a hole that leaves its via no sound ring.
TrackRules rules_for(double smallest_pitch_mm, const Board& board, const TrackLimits& asked);

}  // namespace pinfold
