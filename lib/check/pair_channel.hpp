// The channel of pairs that run side by side: traces, contacts and ribbons from port to port.
#pragma once

#include <vector>

#include "check/course.hpp"

namespace pinfold {

/// Plans the channel of pairs of one promise on one course, as `measure_lines` says, and of the
/// pairs and singles of others `beside` them there.
ChannelPlan plan_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways,
                    const std::vector<Beside>& beside);

/// What is sent, from peak to peak, at the rate of a promise: the least its interface allows;
/// nothing if it does not say.
std::optional<Volts> swing_of(const Design& design, std::size_t carry);

}  // namespace pinfold
