// The check of a whole design: every rule, causes told once, repairs tried, acceptances applied.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

class LineMemory;

/// What is to be said of a design, and the wiring it is said of.
struct Verdict {
    Findings findings;  ///< errors first; those the user accepted are left out
    Wiring wiring;
    bool clean() const { return !has_errors(findings); }
};

/// Checks a design.
///
/// One cause is told once: a ribbon in mirrored order is one finding, not twenty. Repairs are
/// single changes that were made to a copy of the design and checked again. An acceptance that
/// accepts nothing is itself a finding.
Verdict check_design(const Design& design);

/// The same for many designs that are much alike: what was worked out of the lines of one is not
/// worked out again.
Verdict check_design(const Design& design, LineMemory& memory);

}  // namespace pinfold
