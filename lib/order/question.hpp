// Questions: the ordering problem that a ribbon of a traced design poses.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "design/wiring.hpp"
#include "order/problem.hpp"

namespace pinfold {

/// A ribbon's conductors as a problem, and the order they have in the design.
struct OrderQuestion {
    OrderProblem problem;
    ConductorOrder as_drawn;
    bool split = false;  ///< the design parts the halves of a pair, which no order may
};

/// Reads the problem off a ribbon whose conductors carry something, in whatever order.
///
/// Pads lie as the boards' connectors have them: the row of each in the middle opposite the
/// ribbon's, in line, contact 1 on the side where the receptacle has it unless the file says
/// otherwise. The wishes of the ribbon become fixed places and the ranking.
/// Ports in `undecided` have a list, but not yet their own: crossings with them are not counted.
/// Throws InputError for wishes that name nothing.
OrderQuestion order_question(const Design& design, const Wiring& wiring, std::size_t ribbon,
                             const std::set<PortRef>& undecided = {});

}  // namespace pinfold
