// The search for the best order: exact, aim after aim, with a proof or the gap that is left.
#pragma once

#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "order/problem.hpp"

namespace pinfold {

/// The best order found, and how far it is proved.
struct BestOrder {
    ConductorOrder order;
    Figures cost{};
    /// No order that is as good by the aims ranked before has less.
    Figures bound{};
    bool proved = false;
    /// Orders of signals that are just as good, this one included; nothing if not counted.
    std::optional<std::uint64_t> optima;
    std::size_t states = 0;  ///< looked at, as a measure of the work
};

/// No order keeps the rules; a smallest set of them that clash, in words.
struct NoOrder {
    std::vector<std::string> rules;
};

using OrderAnswer = std::variant<BestOrder, NoOrder>;

/// Says whether to stop looking for a proof and to give the best so far.
using Stop = std::function<bool()>;

/// The best order by the ranking of the problem's aims, the first one above all others.
///
/// Method: one level for each aim, a graph of all orders that are best by the aims before, in
/// which equal items are merged; along it runs an exact dynamic programme for the next aim, with
/// states that cannot be part of a best order cut off by lower bounds. Each level keeps what the
/// levels above it need no more than count. Of equally good orders the first one is taken, reading
/// from conductor 1 in the order of the items. Proved by trying every order of small problems in
/// tests/order/search.cpp, by other solvers in tests/bench and tests/outside.
OrderAnswer best_order(const OrderProblem& problem, const Stop& stop = {});

}  // namespace pinfold
