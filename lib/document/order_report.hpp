// The report of an ordering: the order, its proof, the figures by aim, and the block to paste.
#pragma once

#include <string>

#include "order/ordering.hpp"

namespace pinfold {

std::string order_report(const Ordering& ordering);

/// A figure as people read it: millimetres for lengths, neighbours' worth for noise.
std::string in_words(Aim aim, std::int64_t figure);

}  // namespace pinfold
