// What is wrong with a pair's line, for the findings and for the table alike.
#pragma once

#include <string_view>
#include <vector>

#include "check/line.hpp"

namespace pinfold {

/// What is wrong with a pair's line, the worst first.
enum class LineFault {
    eye_closed,
    eye_low,
    eye_narrow,
    impedance_low,
    impedance_high,
    crosstalk_high,
    loss_high
};

std::string_view name_of(LineFault fault);

/// In that order; none where nothing was measured.
std::vector<LineFault> faults_of(const LineGroup& group, const PairLine& pair);

}  // namespace pinfold
