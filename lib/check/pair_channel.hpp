// The channel of pairs that run side by side: traces, contacts and ribbons from port to port.
#pragma once

#include <utility>
#include <vector>

#include "check/pair_way.hpp"
#include "check/ribbon_line.hpp"
#include "physics/channel.hpp"

namespace pinfold {

/// The ribbons a pair crosses, each with whether it is entered at end a.
using Course = std::vector<std::pair<std::size_t, bool>>;

/// Empty if the pair goes over leads or its halves go different ways.
Course course_of(const PairWay& way);

/// How long a half takes over the traces of a landing whose lengths are known.
Picoseconds trace_delay(const Design& design, const Landing& landing);

/// The channel of pairs of one promise on one course, as `measure_lines` says.
Channel channel_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways);

}  // namespace pinfold
