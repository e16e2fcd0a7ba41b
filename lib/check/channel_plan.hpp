// A channel before it is solved: all that decides what it does.
// Equal ones are seen as such.
#pragma once

#include <optional>
#include <vector>

#include "physics/channel.hpp"
#include "physics/per_metre.hpp"

namespace pinfold {

/// The traces of a pair on a board, as a field: conductors 0 and 1, tied ones beside them.
struct TraceLine {
    const FieldSolution* field = nullptr;  ///< kept by the memory the plan was made with
    std::vector<std::size_t> ground;

    friend auto operator<=>(const TraceLine&, const TraceLine&) = default;
};

/// The traces of a pair on one board of a landing.
struct TracesPlan {
    std::optional<TraceLine> line;        ///< without one they are matched and only take time
    Millimetres plus, minus;              ///< lengths, where there is a line
    Picoseconds plus_delay, minus_delay;  ///< where there is none

    friend auto operator<=>(const TracesPlan&, const TracesPlan&) = default;
};

/// One of the two traces where the other has left it: it carries no current and floats.
PerMetre alone(const TraceLine& traces);

/// A ribbon as the pairs on it meet it.
struct RibbonPlan {
    const FieldSolution* field = nullptr;  ///< kept by the memory the plan was made with
    Millimetres length;
    std::vector<Ending> endings;  ///< of every conductor; ports are the halves of the pairs
    /// Conductors, plus and minus of each pair, that of each single; none where it does not run
    /// over this ribbon.
    std::vector<std::optional<std::size_t>> ports;
    ContactImpedance near, far;
    Farads near_capacitance, far_capacitance;  ///< of a contact to ground; nothing if not known

    friend auto operator<=>(const RibbonPlan&, const RibbonPlan&) = default;
};

/// Pairs of one promise from port to port, and the pairs and fast singles of others on the same
/// ribbons, as far as they run beside them: what leads further is matched.
struct ChannelPlan {
    /// By place (one more than ribbons) and pair, board by board.
    std::vector<std::vector<std::vector<TracesPlan>>> landings;
    std::vector<RibbonPlan> ribbons;
    std::vector<Drive> pairs;
    std::size_t own = 0;  ///< pairs of the promise, the first
    GigabitsPerSecond rate;

    friend auto operator<=>(const ChannelPlan&, const ChannelPlan&) = default;
};

Channel channel_of(const ChannelPlan& plan);

/// The conductors that the boards tie together, in order.
std::vector<std::size_t> grounds_of(const std::vector<Ending>& endings);

}  // namespace pinfold
