#include "breakout/trees.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

namespace pinfold {

// Expected: Scoins, The number of trees with nodes of alternate parity, Proc. Cambridge Phil. Soc.
// 58 (1962): a^(b-1) b^(a-1) spanning trees of a complete bipartite graph; from memory. Those that
// do not cross themselves are the walks over a grid, (a + b - 2 choose a - 1).
TEST_CASE("there are as many trees as Scoins has", "[breakout]") {
    for (std::size_t a = 1; a < 5; ++a) {
        for (std::size_t b = 1; b < 5; ++b) {
            CAPTURE(a, b);
            const TreeShapes made = tree_shapes(a, b, 100'000);
            const double count = std::pow(a, b - 1) * std::pow(b, a - 1);
            CHECK(made.complete);
            CHECK(static_cast<double>(made.shapes.size()) == count);
            std::set<std::set<std::pair<std::size_t, std::size_t>>> different;
            int planar = 0;
            for (const TreeShape& shape : made.shapes) {
                different.insert({shape.begin(), shape.end()});
                bool crosses = false;
                for (const auto& one : shape) {
                    for (const auto& other : shape) {
                        crosses |= one.first < other.first && one.second > other.second;
                    }
                }
                planar += crosses ? 0 : 1;
            }
            CHECK(different.size() == made.shapes.size());
            const double walks = std::tgamma(a + b - 1) / (std::tgamma(a) * std::tgamma(b));
            CHECK(planar == std::lround(walks));
            CHECK(made.planar == static_cast<std::size_t>(planar));
        }
    }
}

TEST_CASE("more trees than were asked for are said to be more", "[breakout]") {
    const TreeShapes made = tree_shapes(3, 3, 10);
    CHECK(made.shapes.size() == 10);
    CHECK_FALSE(made.complete);
}

}  // namespace pinfold
