// The channel of pairs that run side by side: traces, contacts and ribbons from port to port.
#pragma once

#include <utility>
#include <vector>

#include "check/ribbon_line.hpp"

namespace pinfold {

/// The ribbons a pair crosses, each with whether it is entered at end a.
using RibbonCourse = std::vector<std::pair<std::size_t, bool>>;

/// Empty if the pair goes over leads, or its halves go different ways or over what has no field.
RibbonCourse course_of(RibbonLines& ribbons, const PairWay& way);

/// Plans the channel of pairs of one promise on one course, as `measure_lines` says.
ChannelPlan plan_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways);

}  // namespace pinfold
