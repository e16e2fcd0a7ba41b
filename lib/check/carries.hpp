// Checks on the promises themselves, and on supplies that no promise speaks of.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Finds promises that run from the wrong end (`end-misfit`), promise nothing (`promise-empty`) or
/// leave out signals of the near port that the far port lacks (`not-promised`).
Findings check_carries(const Design& design, const Wiring& wiring);

/// Finds supplies joined to ground or to a supply of another voltage, whether promised or not, and
/// ports that are joined to a promised supply though no promise names them.
Findings check_supplies(const Design& design, const Wiring& wiring);

}  // namespace pinfold
