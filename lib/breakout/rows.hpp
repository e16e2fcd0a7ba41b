// Pad rows: where the contacts of a board lie that face each other across a breakout.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "breakout/track_rules.hpp"

namespace pinfold {

/// A place on a board, in millimetres.
struct Spot {
    double x_mm = 0.0;
    double y_mm = 0.0;
};

/// One pad, in its row's own frame: along the row, and behind the foremost row.
struct RowPad {
    ContactRef contact;
    std::optional<std::size_t> net;  ///< in the board's nets; none if left open
    bool ground = false;
    double along_mm = 0.0;
    double behind_mm = 0.0;
    int row = 0;  ///< 0: the row nearest the other side
    double width_mm = 0.3;
    double length_mm = 1.2;
    double pitch_mm = 0.5;  ///< of its port
    double hole_mm = 0.0;   ///< of a plated hole, whose copper is on both layers; none: on top
};

/// The pads on one side of a breakout.
struct PadRow {
    std::vector<RowPad> pads;
    double pitch_mm = 0.5;  ///< the least of its ports

    double longest_mm() const;  ///< pad
    double depth_mm() const;    ///< from the foremost row to the last
};

/// How the traces leave the row of the ribbon: straight on, or round one corner.
enum class Course { in_line, to_right, to_left };

/// What two lengths in millimetres may differ by and still be the same: a nanometre.
constexpr double hair = 1e-6;

enum class Side { near, far };  ///< the ribbon's receptacle, and what lies opposite

/// The pads of a board on both sides of its breakout, seen on the component side; the near row's
/// mouth looks down the page. The far row's places are those of its traces before they turn the
/// corner, if they do. A course to the left stands here as one to the right, in the mirror.
struct PadRows {
    PortRef near;
    std::array<PadRow, 2> sides;
    Course course = Course::in_line;
    /// The far row's front line, if the board's file says where it is: above the near one; of a
    /// turned row, beside the near row's origin.
    std::optional<double> placed_front_mm;
    TrackRules rules;
    std::vector<std::string> remarks;  ///< what was taken for want of better
    Findings findings;                 ///< what the board's file says and cannot be drawn

    const PadRow& side(Side which) const { return sides[static_cast<std::size_t>(which)]; }
};

/// What the user may say of a breakout beyond the design.
struct BreakoutWish {
    std::string port;        ///< whose row is the near one; empty: the first that takes a ribbon
    bool own_order = false;  ///< the near row in the order of the far one, whatever the list says
    std::optional<Course> course;
    TrackLimits rules;  ///< before those of the board's file
};

/// The rows of a board we make.
///
/// Where both ports have a `placing` on one side of the board at right angles, the rows lie as it
/// says. Else the far ports stand beside each other, opposite and in line, contact 1 on the side
/// where the near row has it; pad sizes and the distance of rows follow from the pitch. What was
/// taken is in the remarks. Throws InputError for a board without a receptacle for a ribbon or
/// without another port, and for a port it does not have.
PadRows pad_rows(const Design& design, std::size_t board, const BreakoutWish& wish = {});

}  // namespace pinfold
