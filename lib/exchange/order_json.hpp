// The ordering of a design as JSON, schema pinfold-order/1.
#pragma once

#include <string>

#include "order/ordering.hpp"

namespace pinfold {

/// Keys: `schema`; `orders` [{`ribbon`, `conductors` (signal names, conductor 1 first), `chosen`
/// (its order was left open; else it was measured as drawn), `proved`, `cost` {aim: number},
/// `bound` {aim: number}, `optima` (count or null), `crossings`, `seconds`, `rules` (that clash,
/// if there is no order), `weights` (where those of coupling are from), `problem` (the question,
/// for whoever wants to prove it again), `best` (the best order: [item of the problem, half] for
/// each conductor)}]; `breakouts` of the boards with the orders in place, as `breakouts_json` has
/// them; `clean` with the orders in place. Noise is in neighbours' worth of coupling,
/// mismatch in millimetres. Of a measured order `cost` is the drawn one's, `bound` the
/// best's, and it is `proved` if no order is better.
std::string order_json(const Ordering& ordering);

/// A problem and its answer in one line: `problem` and `best` as above, `cost` and `bound` in the
/// search's own whole numbers, one for each of `all_aims`, `proved`.
std::string order_problem_json(const OrderProblem& problem, const BestOrder& best);

}  // namespace pinfold
