// A channel before it is solved: all that decides what it does, so that equal ones are seen as
// such.
#pragma once

#include <vector>

#include "physics/channel.hpp"
#include "physics/per_metre.hpp"

namespace pinfold {

/// A ribbon as the pairs on it meet it.
struct RibbonPlan {
    const FieldSolution* field = nullptr;  ///< kept by the memory the plan was made with
    Millimetres length;
    std::vector<Ending> endings;     ///< of every conductor; ports are the halves of the pairs
    std::vector<std::size_t> ports;  ///< conductors, plus and minus of each pair
    ContactImpedance near, far;

    friend auto operator<=>(const RibbonPlan&, const RibbonPlan&) = default;
};

/// Pairs of one promise from port to port.
struct ChannelPlan {
    std::vector<std::vector<Picoseconds>>
        landings;  ///< plus and minus of each; one more than ribbons
    std::vector<RibbonPlan> ribbons;
    std::vector<Drive> pairs;
    GigabitsPerSecond rate;

    friend auto operator<=>(const ChannelPlan&, const ChannelPlan&) = default;
};

Channel channel_of(const ChannelPlan& plan);

/// The conductors that the boards tie together, in order.
std::vector<std::size_t> grounds_of(const std::vector<Ending>& endings);

}  // namespace pinfold
