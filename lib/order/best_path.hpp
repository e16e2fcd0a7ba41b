// The best orders of a finished level: the first of them, and how many there are.
#pragma once

#include "order/level.hpp"

namespace pinfold {

/// The first best order, reading from conductor 1 in the order of the items; named as far as the
/// level does not name the items itself.
ConductorOrder first_best_path(const OrderProblem& problem, const Classes& classes,
                               const Level& level);

/// How many orders of signals are best; nothing if they are too many to count.
std::optional<std::uint64_t> count_best_orders(const OrderProblem& problem, const Classes& classes,
                                               const Level& level);

}  // namespace pinfold
