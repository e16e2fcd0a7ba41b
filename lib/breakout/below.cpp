#include "breakout/below.hpp"

#include <algorithm>
#include <numeric>

namespace pinfold {
namespace {

/// Whether other dives pass a wire's column, or the one beside it, before and after its own dive;
/// of a wire that does not dive, at all.
struct Passed {
    bool before = false;
    bool after = false;
};

std::vector<Passed> passed_by(const std::vector<Dive>& dives, std::size_t wires) {
    std::vector<std::size_t> columns(wires);
    std::iota(columns.begin(), columns.end(), std::size_t{0});
    std::vector<Passed> passed(wires);
    std::vector<bool> has_dived(wires, false);
    for (const Dive& dive : dives) {
        const auto [left, right] = std::minmax(dive.from, dive.to);
        const std::size_t begin = left > 0 ? left - 1 : 0;
        for (std::size_t c = begin; c < std::min(right + 2, wires); ++c) {
            if (columns[c] == dive.wire) continue;
            (has_dived[columns[c]] ? passed[columns[c]].after : passed[columns[c]].before) = true;
        }
        columns.erase(columns.begin() + static_cast<long>(dive.from));
        columns.insert(columns.begin() + static_cast<long>(dive.to), dive.wire);
        has_dived[dive.wire] = true;
    }
    return passed;
}

/// Whether a wire may leave its pad on the bottom layer if it has a reason to.
bool may_be_below(const RowPad& pad, Exit exit) { return pad.hole_mm > 0 && !goes_round(exit); }

}  // namespace

std::vector<Below> below_of(const PadRows& rows, const Escape& escape,
                            const std::vector<Dive>& dives) {
    const std::vector<Passed> passed = passed_by(dives, escape.wires.size());
    std::vector<Below> below(escape.wires.size());
    for (std::size_t w = 0; w < below.size(); ++w) {
        const bool dives_itself = std::ranges::find(dives, w, &Dive::wire) != dives.end();
        const auto is_below = [&](std::size_t side, bool is_passed) {
            const std::size_t pad = escape.wires[w].pads[side];
            const Exit exit = *escape.exits[side][pad];
            const bool by_hole = may_be_below(rows.sides[side].pads[pad], exit);
            return goes_under(exit) || (dives_itself && !is_passed && by_hole);
        };
        Below& wire = below[w];
        wire.begins = is_below(0, passed[w].before);
        wire.ends = is_below(1, passed[w].after);
        const bool runs_through = !dives_itself && !passed[w].before && wire.begins && wire.ends;
        wire.rises = wire.begins && !runs_through && (!dives_itself || passed[w].before);
        wire.sinks = wire.ends && !runs_through && (!dives_itself || passed[w].after);
    }
    return below;
}

}  // namespace pinfold
