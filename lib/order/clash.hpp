// Clashes: fixed places that no order can keep together, and the fewest of them.
#pragma once

#include <string>
#include <vector>

#include "order/problem.hpp"

namespace pinfold {

/// Whether there is an order at all that keeps every fixed place.
bool keeps_together(const OrderProblem& problem);

/// A smallest set of rules that cannot be kept together, in words; for a problem without an order.
std::vector<std::string> clash_of(const OrderProblem& problem);

}  // namespace pinfold
