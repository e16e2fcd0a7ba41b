#include "breakout/pad_room.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

/// A length as people write it: to a micrometre, rounded down.
std::string at_most(double length_mm) {
    return fmt::format("{:g} mm", std::floor(length_mm * 1000 + 1e-6) / 1000);
}

/// What does not fit beside this pad; empty if all does.
std::string complaint_of(const RowPad& pad, const TrackRules& rules, bool has_vias_between) {
    const double between = pad.pitch_mm - pad.width_mm;
    const std::string where =
        fmt::format("pads of {:g} mm at a pitch of {:g} mm", pad.width_mm, pad.pitch_mm);
    if (between < rules.gap_mm - hair) {
        return fmt::format("gaps of {:g} mm do not fit: {} are {} apart", rules.gap_mm, where,
                           at_most(between));
    }
    const double widest =
        std::min(pad.pitch_mm - rules.gap_mm, 2 * (pad.pitch_mm - rules.gap_mm) - pad.width_mm);
    if (rules.track_mm > widest + hair) {
        return fmt::format(
            "tracks of {:g} mm with gaps of {:g} mm do not fit {}; with these gaps "
            "they may be {} wide",
            rules.track_mm, rules.gap_mm, where, at_most(widest));
    }
    if (has_vias_between && rules.via_reach() > pad.pitch_mm + hair) {
        const double via = 2 * (pad.pitch_mm - rules.gap_mm) - rules.track_mm;
        return fmt::format(
            "vias of {:g} mm do not fit between two rows of {}; with these tracks "
            "and gaps they may be {} wide",
            rules.via_mm, where, at_most(via));
    }
    return {};
}

}  // namespace

void require_room(const PadRows& rows, const Board& board) {
    for (const PadRow& side : rows.sides) {
        for (const RowPad& pad : side.pads) {
            const std::string complaint = complaint_of(pad, rows.rules, side.depth_mm() > 0.0);
            if (complaint.empty()) continue;
            const Mark& limits = board.track_limits.at;
            const Mark at = limits.source ? limits : board.ports[pad.contact.port.port].at;
            throw InputError({{Severity::error, "breakout-rules", complaint, at}});
        }
    }
}

}  // namespace pinfold
