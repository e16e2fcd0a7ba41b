#include "design/read_track_limits.hpp"

#include <fmt/format.h>

#include "design/hole_ring.hpp"
#include "design/read_stack_up.hpp"

namespace pinfold {

TrackLimits read_track_limits(Fields& board, Findings& findings) {
    TrackLimits limits;
    const Yaml* yaml = board.any("track-rules");
    if (!yaml) return limits;
    Fields fields(*yaml, findings);
    limits.at = yaml->at;
    const auto size = [&](const char* key) {
        return fields.has(key) ? std::optional(size_of(fields, key, findings)) : std::nullopt;
    };
    limits.track = size("track");
    limits.gap = size("gap");
    limits.via = size("via");
    limits.hole = size("hole");
    fields.done();
    if (!limits.via || !limits.hole) return limits;
    const std::string via = fmt::format("a via of {:g} mm", limits.via->value());
    if (const auto fault = ring_fault(*limits.hole, *limits.via, via)) {
        complain(findings, "trace-size", *fault + "; make the via wider or the hole smaller",
                 fields.at("hole"));
    }
    return limits;
}

}  // namespace pinfold
