// The ordering of a design as JSON, schema pinfold-order/1.
#pragma once

#include <string>

#include "order/ordering.hpp"

namespace pinfold {

/// Keys: `schema`; `orders` [{`ribbon`, `conductors` (signal names, conductor 1 first), `chosen`
/// (its order was left open; else it was measured as drawn), `proved`, `cost` {aim: number},
/// `bound` {aim: number}, `optima` (count or null), `crossings`, `seconds`, `rules` (that clash,
/// if there is no order)}]; `clean` with the orders in place. Noise is in neighbours' worth of
/// coupling, mismatch in millimetres. Of a measured order `cost` is the drawn one's, `bound` the
/// best's, and it is `proved` if no order is better.
std::string order_json(const Ordering& ordering);

}  // namespace pinfold
