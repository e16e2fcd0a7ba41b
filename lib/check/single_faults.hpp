// Single faults: signals that fail each for a reason of its own.
#pragma once

#include <vector>

#include "base/finding.hpp"
#include "check/hypothesis.hpp"

namespace pinfold {

/// A fault of a few signals: how it is told, which promised signals it explains, and the changes
/// that may mend it.
struct SingleFault {
    Finding finding;
    std::vector<PassKey> passes;
    std::vector<Edit> repairs;
};

/// Tells every failing signal once: pairs swapped, lanes and singles exchanged, shorts by the piece
/// they share, opens one by one or, if nothing of a promise arrives, all at once.
std::vector<SingleFault> single_faults(const Design& design, const Wiring& wiring);

}  // namespace pinfold
