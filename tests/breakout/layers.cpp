#include "breakout/layers.hpp"

#include <catch2/catch.hpp>
#include <numeric>
#include <random>

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

Places shuffled(std::mt19937& random, std::size_t count) {
    Places places(count);
    std::iota(places.begin(), places.end(), std::size_t{0});
    std::ranges::shuffle(places, random);
    return places;
}

std::vector<Route> wires_of(const Places& places) {
    std::vector<Route> wires;
    for (std::size_t w = 0; w < places.size(); ++w) wires.push_back({w, {w, w}, places[w]});
    return wires;
}

/// The heaviest set of wires no two of which cross, by trying all sets.
std::int64_t heaviest_by_trying(const Places& places, const std::vector<std::int64_t>& weight) {
    std::int64_t best = 0;
    for (unsigned set = 0; set < 1U << places.size(); ++set) {
        std::int64_t sum = 0;
        bool planar = true;
        for (std::size_t a = 0; a < places.size(); ++a) {
            if ((set >> a & 1U) == 0) continue;
            sum += weight[a];
            for (std::size_t b = a + 1; b < places.size(); ++b) {
                planar = planar && ((set >> b & 1U) == 0 || places[a] < places[b]);
            }
        }
        if (planar) best = std::max(best, sum);
    }
    return best;
}

/// Follows the dives column by column; how often wires pass each other, and the order at the end.
struct Followed {
    int crossings = 0;
    std::vector<std::size_t> columns;
};

Followed followed(const Places& places, std::vector<Dive> dives) {
    Followed end{0, Places(places.size())};
    std::iota(end.columns.begin(), end.columns.end(), std::size_t{0});
    std::ranges::stable_sort(dives, {}, &Dive::stage);
    for (const Dive& dive : dives) {
        REQUIRE(end.columns[dive.from] == dive.wire);
        end.columns.erase(end.columns.begin() + static_cast<long>(dive.from));
        end.columns.insert(end.columns.begin() + static_cast<long>(dive.to), dive.wire);
        end.crossings += std::abs(static_cast<int>(dive.to) - static_cast<int>(dive.from));
    }
    return end;
}

}  // namespace

// Expected: Knuth, The Art of Computer Programming, vol. 3, 5.1.1: n(n-1)/2 inversions at most and
// n(n-1)/4 on the average over all permutations; from memory.
TEST_CASE("crossings of all orders of seven wires are as many as Knuth has", "[breakout]") {
    Places places(7);
    std::iota(places.begin(), places.end(), std::size_t{0});
    int most = 0, all = 0, orders = 0;
    do {
        const int count = count_crossings(wires_of(places));
        most = std::max(most, count);
        all += count;
        ++orders;
    } while (std::ranges::next_permutation(places).found);
    CHECK(orders == 5040);
    CHECK(most == 7 * 6 / 2);
    CHECK(4 * all == orders * 7 * 6);
}

// Expected: every set of wires tried.
TEST_CASE("no wires that weigh more can stay on top, and the bound says so", "[breakout]") {
    std::mt19937 random(5);
    for (int round = 0; round < 400; ++round) {
        const Places places = shuffled(random, 1 + random() % 9);
        std::vector<std::int64_t> weight;
        for (std::size_t w = 0; w < places.size(); ++w) weight.push_back(1 + random() % 9);
        const LayerChoice choice = keep_on_top(places, weight);
        CHECK(choice.weight == heaviest_by_trying(places, weight));
        CHECK(choice.bound == choice.weight);
        std::int64_t kept = 0;
        for (std::size_t w = 0; w < places.size(); ++w) kept += choice.stays[w] ? weight[w] : 0;
        CHECK(kept == choice.weight);
    }
}

// Expected: the definition. A pair of wires that lie the other way round must pass each other once.
TEST_CASE("dives bring all wires home and pass no more wires than they must", "[breakout]") {
    std::mt19937 random(6);
    for (int round = 0; round < 3000; ++round) {
        const Places places = shuffled(random, 1 + random() % 40);
        const std::vector<Route> wires = wires_of(places);
        std::vector<bool> fast;
        for (std::size_t w = 0; w < places.size(); ++w) fast.push_back(random() % 3 == 0);
        const LayerChoice choice = keep_on_top(places, layer_weights(wires, fast));
        const std::vector<Dive> dives = dives_of(places, choice.stays);
        const Followed end = followed(places, dives);
        CHECK(end.crossings == count_crossings(wires));
        for (std::size_t c = 0; c < end.columns.size(); ++c) CHECK(places[end.columns[c]] == c);
        CHECK(dives.size() == static_cast<std::size_t>(std::ranges::count(choice.stays, false)));
    }
}

// Expected: words we chose: fast pairs first, then few runs beneath them, then few layer changes.
TEST_CASE("a single dives before a fast pair does", "[breakout]") {
    // Two singles on the left at home, on the right at the far row; a fast pair goes the other way.
    const Places places{2, 3, 4, 0, 1};
    const std::vector<bool> fast{false, false, false, true, true};
    const LayerChoice choice = keep_on_top(places, layer_weights(wires_of(places), fast));
    CHECK(choice.stays == std::vector<bool>{false, false, false, true, true});
}

}  // namespace pinfold
