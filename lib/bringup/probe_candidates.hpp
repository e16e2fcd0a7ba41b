// Candidates: the readings a plan chooses from.
#pragma once

#include <vector>

#include "bringup/probe_plan.hpp"

namespace pinfold {

struct ProbeCandidates {
    std::vector<Probe> probes;  ///< no two between the same sites
    std::size_t promised = 0;   ///< so many of them, the first, prove a promise
};

/// One reading for each kept promise; readings between contacts of one piece, all of a small one;
/// one for each two nets that `faults` or their neighbours may bridge, where most such places lie
/// side by side.
ProbeCandidates probe_candidates(const Bench& bench, const std::vector<std::size_t>& faults);

}  // namespace pinfold
