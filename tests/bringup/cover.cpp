// Covers held against every choice of tests there is.
#include "bringup/cover.hpp"

#include <bit>
#include <catch2/catch.hpp>
#include <random>

namespace pinfold {
namespace {

CoverProblem invented(std::mt19937& random, std::size_t tests, std::size_t faults) {
    CoverProblem problem;
    problem.faults = faults;
    for (std::size_t t = 0; t < tests; ++t) {
        Bits shows(faults);
        for (std::size_t f = 0; f < faults; ++f) {
            if (random() % 4 == 0) shows.set(f);
        }
        problem.shows.push_back(shows);
    }
    return problem;
}

Bits shown_by(const CoverProblem& problem, unsigned choice) {
    Bits shown(problem.faults);
    for (std::size_t t = 0; t < problem.shows.size(); ++t) {
        if ((choice >> t & 1U) != 0) shown.add(problem.shows[t]);
    }
    return shown;
}

/// The fewest tests that show all that can be shown, by trying all 2^n choices.
std::size_t fewest(const CoverProblem& problem) {
    const unsigned all = (1U << problem.shows.size()) - 1;
    const Bits most = shown_by(problem, all);
    int least = static_cast<int>(problem.shows.size());
    for (unsigned choice = 0; choice <= all; ++choice) {
        if (std::popcount(choice) < least && most.within(shown_by(problem, choice))) {
            least = std::popcount(choice);
        }
    }
    return static_cast<std::size_t>(least);
}

Bits shown_by(const CoverProblem& problem, const std::vector<std::size_t>& tests) {
    Bits shown(problem.faults);
    for (const std::size_t test : tests) shown.add(problem.shows[test]);
    return shown;
}

}  // namespace

// Expected: every choice of tests tried (independent method).
TEST_CASE("a cover is as small as the smallest of all choices, and no bound is above it") {
    std::mt19937 random(20);  // NOLINT: the same problems every time
    for (std::size_t i = 0; i < 200; ++i) {
        const CoverProblem problem = invented(random, 4 + i % 8, 3 + i % 17);
        const Cover cover = least_cover(problem);
        CAPTURE(i);
        CHECK(cover.is_least);
        CHECK(cover.tests.size() == fewest(problem));
        CHECK(packing_bound(problem) <= cover.tests.size());
        const unsigned all = (1U << problem.shows.size()) - 1;
        CHECK(shown_by(problem, all).within(shown_by(problem, cover.tests)));
    }
}

// Expected: the definition; each test left has a fault that no other of the cover shows.
TEST_CASE("a cover found without a search has no superfluous test and keeps what is to be kept") {
    std::mt19937 random(5);  // NOLINT
    for (std::size_t i = 0; i < 50; ++i) {
        CoverProblem problem = invented(random, 40, 120);
        problem.kept = {3, 17};
        const Cover cover = least_cover(problem, 0);
        CAPTURE(i);
        for (const std::size_t kept : problem.kept) {
            CHECK(std::ranges::find(cover.tests, kept) != cover.tests.end());
        }
        for (const std::size_t left_out : cover.tests) {
            if (left_out == 3 || left_out == 17) continue;
            std::vector<std::size_t> rest = cover.tests;
            std::erase(rest, left_out);
            CHECK_FALSE(shown_by(problem, cover.tests).within(shown_by(problem, rest)));
        }
    }
}

}  // namespace pinfold
