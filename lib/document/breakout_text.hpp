// The breakout of a board for the terminal: crossings, layer changes, lengths, meanders.
#pragma once

#include <string>

#include "breakout/breakout.hpp"

namespace pinfold {

/// What the breakout needs, in some sentences without line ends.
std::string breakout_summary(const Breakout& breakout);

/// The whole report; `own` is the same board with the ribbon in the far row's own order, if that
/// can be had.
std::string breakout_report(const Breakout& breakout, const std::optional<Breakout>& own);

}  // namespace pinfold
