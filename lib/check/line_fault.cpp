#include "check/line_fault.hpp"

namespace pinfold {
namespace {

using LineFaults = std::vector<LineFault>;

// What could not be reckoned is no number, and a fault: each limit is asked for what is right.

void judge_eye(const LineGroup& group, const PairLine& pair, LineFaults& faults) {
    if (!pair.listened) return;
    const Eye& eye = pair.result->eye;
    if (!(eye.opening > 0.0)) {
        faults.push_back(LineFault::eye_closed);
        return;
    }
    if (!group.limit) return;
    const Limit& limit = *group.limit;
    if (limit.least_eye && !(group.eye_of(pair) >= *limit.least_eye)) {
        faults.push_back(LineFault::eye_low);
    }
    if (limit.least_eye_width && !(eye.width >= *limit.least_eye_width)) {
        faults.push_back(LineFault::eye_narrow);
    }
}

void judge_impedance(const LineGroup& group, const PairLine& pair, LineFaults& faults) {
    const std::optional<ImpedanceWindow> window = window_of(group.limit);
    if (!window) return;
    if (pair.worst.z_diff < window->least.value()) faults.push_back(LineFault::impedance_low);
    if (pair.worst.z_diff > window->most.value()) faults.push_back(LineFault::impedance_high);
}

void judge_levels(const LineGroup& group, const PairLine& pair, LineFaults& faults) {
    if (!group.limit) return;
    const Limit& limit = *group.limit;
    const bool heard = !pair.aggressor.empty() && limit.crosstalk_below;
    if (heard && !(pair.result->crosstalk_power <= -1.0 * *limit.crosstalk_below)) {
        faults.push_back(LineFault::crosstalk_high);
    }
    if (limit.loss && !(pair.result->loss <= *limit.loss)) faults.push_back(LineFault::loss_high);
}

}  // namespace

std::string_view name_of(LineFault fault) {
    switch (fault) {
        case LineFault::eye_closed: return "eye closed";
        case LineFault::eye_low: return "eye low";
        case LineFault::eye_narrow: return "eye narrow";
        case LineFault::impedance_low: return "impedance low";
        case LineFault::impedance_high: return "impedance high";
        case LineFault::crosstalk_high: return "crosstalk high";
        default: return "loss high";
    }
}

std::vector<LineFault> faults_of(const LineGroup& group, const PairLine& pair) {
    LineFaults faults;
    if (!pair.result) return faults;
    judge_eye(group, pair, faults);
    judge_impedance(group, pair, faults);
    judge_levels(group, pair, faults);
    return faults;
}

}  // namespace pinfold
