// Checks on length where no board gives any: skew by the traces that a breakout would draw.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

class LineMemory;

/// The design with a length on every net that the breakout of its board draws, for boards that
/// give no lengths at all; `boards` are the names of those. Boards that cannot be drawn and those
/// of more than 120 contacts are left as they are, and so is a design with more than 16 boards to
/// estimate, which would take too long.
struct EstimatedLengths {
    Design drawn;       ///< lengths as drawn, with the meanders that fit
    Design bare;        ///< without any meander
    bool bent = false;  ///< the two differ
    std::vector<std::string> boards;
};
EstimatedLengths with_estimated_lengths(const Design& design);

/// Finds skew beyond the limit that the estimates alone bring about: a note, `skew-estimated`, that
/// names the boards whose lengths are estimates, and says if the meanders drawn take it away.
Findings check_estimated_lengths(const Design& design, const Wiring& wiring, LineMemory& memory);

}  // namespace pinfold
