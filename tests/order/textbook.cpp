// Textbook arrangements whose optimum has a closed form, put as orders of conductors.
#include <catch2/catch.hpp>

#include "order/alone.hpp"
#include "order/problems.hpp"

namespace pinfold {
namespace {

/// Vertices that are edges apart as far as they lie: what couples in proportion to the distance.
/// Sources and sinks are joined to each other, both-way vertices to all.
OrderProblem arrangement(int sources, int sinks, int both_ways) {
    std::vector<OrderItem> items;
    const auto add = [&](int count, int strength, int sensitivity) {
        for (int i = 0; i < count; ++i) {
            items.push_back(single_item(fmt::format("V{}", items.size()), strength, sensitivity));
        }
    };
    add(sources, 1, 0);
    add(sinks, 0, 1);
    add(both_ways, 1, 1);
    OrderProblem problem = problem_of(std::move(items));
    problem.coupling.weight = {{{1000, 0, 0}, {2000, 0, 0}, {3000, 0, 0}}};
    return problem;
}

std::int64_t least_noise(const OrderProblem& problem) {
    const OrderAnswer answer = best_order(problem);
    const BestOrder& best = std::get<BestOrder>(answer);
    CHECK(best.proved);
    CHECK(figure(best.bound, Aim::noise) == figure(best.cost, Aim::noise));
    return figure(best.cost, Aim::noise) / 1000;
}

}  // namespace

// Source: Diaz, Petit and Serna, "A survey of graph layout problems", ACM Computing Surveys 34
// (2002), table of basic values, from memory; each worked out anew by trying every arrangement.
// Coupling reaches three conductors, so graphs of four vertices are the largest that fit.
TEST_CASE("small graphs lie in a row as short as textbooks say", "[order][published]") {
    const auto path = [](int n) { return n - 1; };
    const auto cycle = [](int n) { return 2 * (n - 1); };
    const auto star = [](int n) { return n * n / 4; };
    const auto complete = [](int n) { return n * (n * n - 1) / 6; };
    // Of the cube of n dimensions: Harper, Optimal assignments of numbers to vertices (1964).
    const auto cube = [](int n) { return (1 << (n - 1)) * ((1 << n) - 1); };
    CHECK(least_noise(arrangement(1, 1, 0)) == path(2));
    CHECK(least_noise(arrangement(1, 1, 0)) == cube(1));
    CHECK(least_noise(arrangement(2, 2, 0)) == cube(2));
    CHECK(least_noise(arrangement(1, 2, 0)) == path(3));
    CHECK(least_noise(arrangement(2, 2, 0)) == cycle(4));
    CHECK(least_noise(arrangement(1, 2, 0)) == star(3));
    CHECK(least_noise(arrangement(1, 3, 0)) == star(4));
    // Two that disturb each other count from both sides.
    for (const int n : {2, 3, 4}) CHECK(least_noise(arrangement(0, 0, n)) == 2 * complete(n));
}

// Closed form: in two layers the complete bipartite graph of m and n vertices crosses itself
// m(m-1)/2 n(n-1)/2 times, in whatever order. Each pair is a vertex joined to the same two pads.
TEST_CASE("two layers of a complete bipartite graph cross as often as they must", "[order]") {
    for (int n = 2; n <= 12; ++n) {
        std::vector<OrderItem> items;
        for (int i = 0; i < n; ++i) {
            OrderItem pair = pair_item(fmt::format("P{}", i));
            pair.pads[0] = {PadPlaces{-250}, PadPlaces{250}};
            items.push_back(pair);
        }
        OrderProblem problem = problem_of(std::move(items));
        std::erase(problem.ranking, Aim::crossings);
        problem.ranking.insert(problem.ranking.begin(), Aim::crossings);
        const OrderAnswer answer = best_order(problem);
        CHECK(figure(std::get<BestOrder>(answer).cost, Aim::crossings) == n * (n - 1) / 2);
        CHECK(least_alone(problem, Aim::crossings) == n * (n - 1) / 2);
    }
}

}  // namespace pinfold
