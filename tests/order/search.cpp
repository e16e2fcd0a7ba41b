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
    for (unsigned seed = 0; seed < 1210; ++seed) {
        const int blocks =
            seed < 1200 ? 2 + static_cast<int>(seed % 5) : 7 + static_cast<int>(seed % 3);
        const OrderProblem problem = generated_problem(seed, blocks);
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

// Expected: every order tried. Pairs of one class, whose halves may lie apart on the boards, are
// the ones the search may keep in the order of their pads.
TEST_CASE("no order of pairs with scattered pads crosses less", "[order]") {
    std::mt19937 random(11);
    for (int round = 0; round < 600; ++round) {
        std::vector<OrderItem> items;
        for (int i = 0; i < 5; ++i) {
            OrderItem item = i < 4 ? pair_item(fmt::format("P{}", i)) : single_item("S");
            for (auto& board : item.pads) {
                for (int h = 0; h < item.width(); ++h) {
                    board[static_cast<std::size_t>(h)] = {500 * static_cast<int>(random() % 9)};
                }
            }
            items.push_back(item);
        }
        OrderProblem problem = problem_of(std::move(items));
        if (round % 2 == 0) std::swap(problem.ranking[0], problem.ranking[3]);
        const Tried tried = try_all(problem);
        const OrderAnswer answer = best_order(problem);
        CAPTURE(round);
        CHECK(ranked(problem, std::get<BestOrder>(answer).cost) == tried.best);
        CHECK(std::get<BestOrder>(answer).optima == tried.count);
    }
}

/// Pads of single signals on one board, given as a permutation.
OrderProblem permuted(const std::vector<int>& places) {
    std::vector<OrderItem> items;
    for (std::size_t i = 0; i < places.size(); ++i) {
        OrderItem item = single_item(fmt::format("S{}", i), 0, 0);
        item.pads[0][0] = {500 * static_cast<int>(i)};
        item.pads[1][0] = {500 * places[i]};
        items.push_back(item);
    }
    OrderProblem problem = problem_of(std::move(items));
    problem.ranking = {Aim::crossings, Aim::guards,   Aim::hazards,
                       Aim::noise,     Aim::mismatch, Aim::returns};
    return problem;
}

// Source: Knuth, The Art of Computer Programming, volume 3, section 5.1.1: a permutation has as
// many inversions as neighbours must be exchanged to sort it, n(n-1)/2 at most. A trace must cross
// another on one of two boards for each inversion between them.
TEST_CASE("traces cross once for each inversion between two boards", "[order][published]") {
    std::vector<int> places(14);
    std::mt19937 random(5);
    for (int i = 0; i < 14; ++i) places[static_cast<std::size_t>(i)] = i;
    for (int round = 0; round < 30; ++round) {
        if (round > 1) std::ranges::shuffle(places, random);
        if (round == 1) std::ranges::reverse(places);
        int inversions = 0;
        for (std::size_t i = 0; i < places.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) inversions += places[j] > places[i] ? 1 : 0;
        }
        if (round == 1) CHECK(inversions == 14 * 13 / 2);
        const OrderAnswer answer = best_order(permuted(places));
        const BestOrder& best = std::get<BestOrder>(answer);
        CHECK(figure(best.cost, Aim::crossings) == inversions);
        CHECK(figure(best.bound, Aim::crossings) == inversions);
    }
}

// Closed form: of p pairs in a row p - 1 grounds lie between two and guard two sides each, one more
// at either end guards one.
TEST_CASE("each ground guards two sides until none is left bare", "[order]") {
    for (int pairs = 1; pairs <= 16; ++pairs) {
        for (int grounds = 1; grounds <= pairs + 1; ++grounds) {
            std::vector<OrderItem> items{ground_item(grounds)};
            for (int p = 0; p < pairs; ++p) items.push_back(pair_item(fmt::format("P{}", p)));
            const OrderAnswer answer = best_order(problem_of(std::move(items)));
            const BestOrder& best = std::get<BestOrder>(answer);
            const int between = std::min(grounds, pairs - 1);
            CHECK(figure(best.cost, Aim::guards) == 2 * pairs - between - grounds);
            CHECK(best.proved);
        }
    }
}

// Closed form: one place off, a row of supply conductors meets what lies beyond its two ends (or a
// row at each edge of the ribbon what lies beyond its one); reversed, it can always meet itself.
TEST_CASE("a supply that nothing stands would meet two conductors at the least", "[order]") {
    for (const int copies : {2, 3, 4}) {
        std::vector<OrderItem> items{supply_item("V", copies)};
        for (int s = 0; s < 10; ++s) items.push_back(single_item(fmt::format("S{}", s), 0, 0));
        const OrderProblem problem = problem_of(std::move(items));
        const OrderAnswer answer = best_order(problem);
        const BestOrder& best = std::get<BestOrder>(answer);
        CHECK(figure(best.cost, Aim::hazards) == 2);
    }
}

// Identity: names and the direction in which conductors are counted are of our making.
TEST_CASE("other names and a mirrored ribbon change nothing but names", "[order]") {
    for (unsigned seed = 0; seed < 400; ++seed) {
        const OrderProblem problem = generated_problem(seed, 8);
        const OrderAnswer answer = best_order(problem);
        const BestOrder* best = std::get_if<BestOrder>(&answer);

        OrderProblem renamed = problem;
        for (OrderItem& item : renamed.items) item.names[0] = "X" + item.names[0];
        OrderProblem mirrored = problem;
        for (OrderItem& item : mirrored.items) {
            for (auto& board : item.pads) {
                for (PadPlaces& pads : board) {
                    for (int& place : pads) place = -place;
                    std::ranges::sort(pads);
                }
            }
        }
        for (FixedPlace& fixed : mirrored.fixed) {
            fixed.conductor = problem.conductors - 1 - fixed.conductor;
        }
        const OrderAnswer other = best_order(renamed);
        const OrderAnswer turned = best_order(mirrored);
        CAPTURE(seed);
        REQUIRE((best == nullptr) == std::holds_alternative<NoOrder>(other));
        REQUIRE((best == nullptr) == std::holds_alternative<NoOrder>(turned));
        if (!best) continue;
        CHECK(std::get<BestOrder>(other).order == best->order);
        CHECK(std::get<BestOrder>(turned).cost == best->cost);
        CHECK(std::get<BestOrder>(turned).optima == best->optima);
        ConductorOrder back = std::get<BestOrder>(turned).order;
        std::ranges::reverse(back);
        CHECK(figures_of(problem, back) == best->cost);
    }
}

TEST_CASE("the rules hold in every one of thousands of problems", "[order]") {
    int impossible = 0;
    for (unsigned seed = 0; seed < 4000; ++seed) {
        const OrderProblem problem =
            generated_problem(100'000 + seed, 4 + static_cast<int>(seed % 6));
        const OrderAnswer answer = best_order(problem);
        if (const BestOrder* best = std::get_if<BestOrder>(&answer)) {
            CHECK(keeps_the_rules(problem, best->order));
            CHECK(figures_of(problem, best->order) == best->cost);
        } else {
            ++impossible;
            CHECK(std::get<NoOrder>(answer).rules.size() > 1);
        }
    }
    CHECK(impossible > 10);
    CHECK(impossible < 1000);
}

TEST_CASE("out of time the best so far is given, never called proved", "[order]") {
    std::vector<OrderItem> items{ground_item(20), supply_item("V", 2)};
    for (int p = 0; p < 12; ++p) {
        OrderItem pair = pair_item(fmt::format("P{}", p));
        pair.pads[0] = {PadPlaces{1000 * p}, PadPlaces{1000 * p + 500}};
        pair.pads[1] = {PadPlaces{-1000 * p}, PadPlaces{-1000 * p - 500}};
        items.push_back(pair);
    }
    const OrderProblem problem = problem_of(std::move(items));
    const OrderAnswer answer = best_order(problem, [] { return true; });
    const BestOrder& best = std::get<BestOrder>(answer);
    CHECK_FALSE(best.proved);
    CHECK_FALSE(best.optima);
    CHECK(keeps_the_rules(problem, best.order));
    CHECK(ranked(problem, best.bound) <= ranked(problem, best.cost));
}

TEST_CASE("wishes that clash are told, the fewest of them", "[order]") {
    OrderProblem problem = problem_of({ground_item(2), pair_item("P"), single_item("S")});
    problem.fixed = {{0, 0, 0}, {2, 1, 0}, {4, 1, 1}};
    const OrderAnswer answer = best_order(problem);
    CHECK(std::get<NoOrder>(answer).rules ==
          std::vector<std::string>{"P+ on conductor 3", "P- on conductor 5",
                                   "the halves of a pair lie side by side"});

    problem.fixed = {{0, 0, 0}, {3, 2, 0}, {3, 0, 0}};
    const OrderAnswer twice = best_order(problem);
    CHECK(std::get<NoOrder>(twice).rules ==
          std::vector<std::string>{"S on conductor 4", "GND on conductor 4",
                                   "a conductor carries one signal"});

    problem.fixed = {{0, 0, 0}, {1, 0, 0}, {4, 0, 0}};
    const OrderAnswer often = best_order(problem);
    CHECK(std::get<NoOrder>(often).rules ==
          std::vector<std::string>{"GND on conductor 1", "GND on conductor 2", "GND on conductor 5",
                                   "GND has 2 conductors"});

    problem.fixed = {{0, 1, 1}, {4, 1, 1}};
    const OrderAnswer half = best_order(problem);
    CHECK(std::get<NoOrder>(half).rules ==
          std::vector<std::string>{"P- on conductor 1", "P- on conductor 5", "P- has 1 conductor"});
}

}  // namespace pinfold
