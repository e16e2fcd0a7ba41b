// Traces of boards in a feed: what they measure, and which get too warm.
#pragma once

#include <optional>
#include <string>

#include "base/finding.hpp"
#include "check/feed.hpp"
#include "physics/trace_heat.hpp"

namespace pinfold {

/// A trace whose copper is known.
struct SupplyTrace {
    std::string board, net;
    Millimetres width, thickness;
    Millimetres length;  ///< from port to port
};

/// What IPC-2221's charts are most often read at; common practice.
constexpr Kelvins most_trace_rise{10.0};

/// The trace behind a link of a board's copper; nothing for any other link, or where the board does
/// not give its width, length and the thickness of its copper.
std::optional<SupplyTrace> supply_trace_of(const Design& design, const Wiring& wiring,
                                           const Link& link);

/// The far end of a link as `power` names it: a contact or conductor, or `base.5V` for a trace.
std::string far_end_of(const Design& design, const Wiring& wiring, const Link& link);

/// The rise of a trace on an outer layer, as trace_heat.hpp has it; nothing for any other link.
std::optional<TraceRise> trace_rise_of(const Design& design, const Wiring& wiring, const Link& link,
                                       Amperes current);

/// Finds, for each net of a board, the end of its trace that warms most, if that is too much.
Findings check_traces(const Design& design, const Wiring& wiring, const Feeds& feeds);

}  // namespace pinfold
