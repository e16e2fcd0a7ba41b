#include "design/read_track_limits.hpp"

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
    if (const auto fault = via_fault(*limits.hole, *limits.via)) {
        complain(findings, "trace-size", *fault, fields.at("hole"));
    }
    return limits;
}

}  // namespace pinfold
