#include "order/alone.hpp"

#include "order/level_cost.hpp"

namespace pinfold {

std::optional<std::int64_t> least_alone(OrderProblem problem, Aim aim, const Stop& stop) {
    problem.ranking = {aim};
    const Classes classes = classes_of(problem);
    const bool by_name = aim == Aim::crossings || aim == Aim::mismatch;
    Level level;
    level.aim = aim;
    level.has_obligations = aim == Aim::hazards && !supplies_of(problem).empty();
    level.has_items = level.items_known = by_name;
    if (solve_level({problem, classes, nullptr, nullptr, stop, 0}, {aim}, level) != Outcome::done) {
        return std::nullopt;
    }
    return level.best + StepCost(problem, classes, aim).base();
}

}  // namespace pinfold
