// What one aim alone could reach: the price of all the others before it.
#pragma once

#include "order/search.hpp"

namespace pinfold {

/// The least that one aim can come to if no other counts; nothing if it was stopped before that was
/// proved, or if there is no order.
std::optional<std::int64_t> least_alone(OrderProblem problem, Aim aim, const Stop& stop = {});

}  // namespace pinfold
