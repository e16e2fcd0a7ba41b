#include "check/line_change.hpp"

#include <algorithm>
#include <cmath>

#include "check/line_edits.hpp"

namespace pinfold {
namespace {

bool helps(const LineFigures& figures, const LineFigures& now, Volts swing) {
    if (figures.faults != now.faults) return figures.faults < now.faults;
    return (figures.eye - now.eye) / swing >= 0.05;
}

/// The line of the same promise over the same ribbons, if it is still there.
const LineGroup* same_line(const std::vector<LineGroup>& groups, const LineGroup& group) {
    const auto found = std::ranges::find_if(groups, [&](const LineGroup& other) {
        return other.ribbons == group.ribbons && other.pairs.size() == group.pairs.size();
    });
    return found == groups.end() ? nullptr : &*found;
}

}  // namespace

LineFigures figures_of(const LineGroup& group) {
    LineFigures figures;
    figures.crosstalk = decibels(0.0);
    figures.eye = group.swing();
    const double wanted = group.limit && group.limit->impedance ? group.limit->impedance->value()
                                                                : 2.0 * reference_ohm;
    for (const PairLine& pair : group.pairs) {
        figures.faults += faults_of(group, pair).size();
        const double z = pair.worst.z_diff;
        if (std::abs(z - wanted) >= std::abs(figures.z_diff - wanted) || &pair == &group.pairs[0]) {
            figures.z_diff = z;
        }
        if (!pair.result) continue;
        figures.crosstalk = std::max(figures.crosstalk, pair.result->crosstalk_power);
        if (pair.listened) figures.eye = std::min(figures.eye, group.eye_of(pair));
    }
    return figures;
}

std::vector<LineChange> helpful_changes(const Design& design, const Wiring& wiring,
                                        const LineGroup& group, LineMemory& memory) {
    if (!design.carries[group.carry].rate || group.untried) return {};
    const LineFigures now = figures_of(group);
    std::vector<LineChange> changes;
    for (Edit& edit : line_edits(design, wiring, group)) {
        const Design changed = edited(design, edit);
        const std::vector<LineGroup> groups =
            measure_lines(changed, trace(changed), memory, {group.carry});
        const LineGroup* line = same_line(groups, group);
        if (!line || line->untried) continue;
        const LineFigures figures = figures_of(*line);
        if (helps(figures, now, group.swing())) {
            changes.push_back({std::move(edit.text), figures});
        }
    }
    return changes;
}

}  // namespace pinfold
