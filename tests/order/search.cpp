#include <catch2/catch.hpp>

#include "order/problems.hpp"

namespace pinfold {
namespace {

/// The best figures, how many orders have them, and whether there is an order at all.
struct Tried {
    std::vector<std::int64_t> best;
    std::uint64_t count = 0;
};

Tried try_all(const OrderProblem& problem) {
    Tried tried;
    each_order(problem, [&](const ConductorOrder& order) {
        if (!keeps_the_rules(problem, order)) return;
        const std::vector<std::int64_t> figures = ranked(problem, figures_of(problem, order));
        if (tried.count == 0 || figures < tried.best) tried = {figures, 0};
        if (figures == tried.best) ++tried.count;
    });
    return tried;
}

}  // namespace

// Expected: an independent method, every order tried.
TEST_CASE("no order of a small problem is better than the one found", "[order]") {
    for (unsigned seed = 0; seed < 1500; ++seed) {
        const OrderProblem problem = generated_problem(seed, 2 + static_cast<int>(seed % 6));
        CAPTURE(seed);
        const Tried tried = try_all(problem);
        const OrderAnswer answer = best_order(problem);
        const BestOrder* best = std::get_if<BestOrder>(&answer);
        REQUIRE((best != nullptr) == (tried.count > 0));
        if (!best) continue;
        CHECK(ranked(problem, best->cost) == tried.best);
        CHECK(best->proved);
        CHECK(best->bound == best->cost);
        CHECK(best->optima == tried.count);
        CHECK(keeps_the_rules(problem, best->order));
    }
}

}  // namespace pinfold
