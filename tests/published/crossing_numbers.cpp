// Crossings of two layers: Knuth, The Art of Computer Programming 3, 5.1.1, Table 1 (permutations
// by inversions); Harary and Schwenk, A new crossing number for bipartite graphs, Utilitas
// Mathematica 1 (1972) 203 (cycles and caterpillars). Both from memory.
#include <fmt/ranges.h>

#include <catch2/catch.hpp>
#include <numeric>

#include "breakout/breakout.hpp"
#include "design/read.hpp"
#include "order/problems.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

/// Wires between two rows of a board whose far row has the near one's nets in another order.
Escape escape_of(const std::vector<std::string>& far) {
    std::vector<std::string> near = far;
    std::ranges::sort(near);
    Library library = shipped_library();
    const Design design = read_design(
        text_source(fmt::format("pinfold: 1\ntitle: T\nboards:\n  b:\n    ports:\n      near: "
                                "{{receptacle: ffc-0.50-bottom, positions: {}, first-contact: "
                                "left, wired: [{}]}}\n      far: {{pads: [{}]}}\n",
                                near.size(), fmt::join(near, ", "), fmt::join(far, ", "))),
        {}, library);
    return fewest_crossings(pad_rows(design, 0));
}

/// Orders of n nets by how often their wires cross.
std::vector<int> orders_by_crossings(std::size_t n) {
    std::vector<std::string> far;
    for (std::size_t i = 0; i < n; ++i) far.push_back(fmt::format("N{}", i));
    std::vector<int> orders(n * (n - 1) / 2 + 1);
    do {
        const Escape escape = escape_of(far);
        CHECK(escape.proved());
        ++orders.at(static_cast<std::size_t>(escape.crossings));
    } while (std::ranges::next_permutation(far).found);
    return orders;
}

/// The fewest crossings of vertices of two edges each with a row of others that lies fixed: a pair
/// is a vertex, its halves' pads are where its edges end.
std::int64_t fewest(const std::vector<std::array<int, 2>>& vertices) {
    std::vector<OrderItem> items;
    for (const std::array<int, 2>& ends : vertices) {
        OrderItem pair = pair_item(fmt::format("P{}", items.size()));
        pair.pads[0] = {PadPlaces{500 * std::min(ends[0], ends[1])},
                        PadPlaces{500 * std::max(ends[0], ends[1])}};
        items.push_back(pair);
    }
    OrderProblem problem = problem_of(std::move(items));
    std::erase(problem.ranking, Aim::crossings);
    problem.ranking.insert(problem.ranking.begin(), Aim::crossings);
    const OrderAnswer answer = best_order(problem);
    CHECK(std::get<BestOrder>(answer).proved);
    return figure(std::get<BestOrder>(answer).cost, Aim::crossings);
}

/// A ring of 2n vertices, every other one in the fixed row at the places given, in turn.
std::int64_t fewest_of_ring(const std::vector<int>& places) {
    std::vector<std::array<int, 2>> vertices;
    for (std::size_t i = 0; i < places.size(); ++i) {
        vertices.push_back({places[i], places[(i + 1) % places.size()]});
    }
    return fewest(vertices);
}

}  // namespace

TEST_CASE("orders of a board's pads cross as often as permutations have inversions",
          "[breakout][published]") {
    CHECK(orders_by_crossings(4) == std::vector<int>{1, 3, 5, 6, 5, 3, 1});
    CHECK(orders_by_crossings(5) == std::vector<int>{1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1});
}

TEST_CASE("a ring of 2n vertices crosses itself n - 1 times in two layers", "[order][published]") {
    for (int n = 3; n <= 6; ++n) {
        std::vector<int> places(static_cast<std::size_t>(n));
        std::iota(places.begin(), places.end(), 0);
        std::int64_t least = std::numeric_limits<std::int64_t>::max();
        do {
            least = std::min(least, fewest_of_ring(places));
        } while (std::ranges::next_permutation(places).found);
        CHECK(least == n - 1);
    }
}

// The path is the longest caterpillar of vertices with two edges.
TEST_CASE("a caterpillar lies in two layers without a crossing", "[order][published]") {
    for (int n = 2; n <= 10; ++n) {
        std::vector<std::array<int, 2>> path;
        for (int i = 0; i < n; ++i) path.push_back({i, i + 1});
        std::ranges::reverse(path);
        CHECK(fewest(path) == 0);
    }
}

}  // namespace pinfold
