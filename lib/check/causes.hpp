// Causes: why promised signals do not arrive, each cause told once, with repairs that were tried.
#pragma once

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Explains every promised signal that does not arrive by the simplest causes that account for
/// them: a ribbon mirrored or one place off, a connector in another's order, rows exchanged, two
/// ends not crossed, lanes or halves exchanged; what is left is told signal by signal.
///
/// A cause counts as found only if undoing it in a copy of the design, traced again, mends at least
/// half of what fails. Repairs are changes after which nothing fails but what other findings tell,
/// every ribbon touches and no further pair is split.
Findings check_promises(const Design& design, const Wiring& wiring);

/// The changes that make a ribbon whose copper faces away touch; of these, those that leave the
/// fewest signals failing.
std::vector<std::string> touch_repairs(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends);

}  // namespace pinfold
