// Pad moves: pads that lie in other nets' places, and the exchanges that they are halves of.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "check/pad_table.hpp"

namespace pinfold {

/// From the net where a pad belongs to the net in whose place it lies.
using NetStep = std::pair<std::size_t, std::size_t>;

/// Pads by the step they have gone.
using PadMoves = std::map<NetStep, std::vector<std::size_t>>;

/// Takes out the pads that stand in each other's net, those of one port first: two for each.
std::vector<std::vector<std::size_t>> take_pairs(PadMoves& moves,
                                                 const std::vector<ComparedPad>& pads);

/// Takes out the pads that each stand in the next one's net, round in a ring, until no ring is
/// left: the pads of each.
std::vector<std::vector<std::size_t>> take_rings(PadMoves& moves);

}  // namespace pinfold
