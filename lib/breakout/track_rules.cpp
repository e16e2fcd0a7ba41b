#include "breakout/track_rules.hpp"

#include <algorithm>

#include "design/hole_ring.hpp"

namespace pinfold {
namespace {

void take(TrackRules& rules, const TrackLimits& limits) {
    const auto set = [](double& rule, const std::optional<Millimetres>& limit) {
        if (limit) rule = limit->value();
    };
    set(rules.track_mm, limits.track);
    set(rules.gap_mm, limits.gap);
    set(rules.via_mm, limits.via);
    if (limits.via) rules.hole_mm = rules.via_mm / 2;
    set(rules.hole_mm, limits.hole);
}

}  // namespace

TrackRules usual_rules(double pitch) {
    TrackRules rules;
    rules.track_mm = rules.gap_mm = std::min(0.15, 0.3 * pitch);
    rules.via_mm = std::min(0.5, pitch);
    rules.hole_mm = rules.via_mm / 2;
    return rules;
}

TrackRules rules_for(double pitch, const Board& board, const TrackLimits& asked) {
    TrackRules rules = usual_rules(pitch);
    take(rules, board.track_limits);
    take(rules, asked);
    const auto fault = via_fault(Millimetres(rules.hole_mm), Millimetres(rules.via_mm));
    if (!fault) return rules;
    refuse("breakout-rules", *fault,
           board.track_limits.at.source ? board.track_limits.at : board.at);
}

}  // namespace pinfold
