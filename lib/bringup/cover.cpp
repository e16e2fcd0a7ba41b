#include "bringup/cover.hpp"

#include <algorithm>
#include <bit>
#include <queue>

namespace pinfold {
namespace {

Bits all_shown(const CoverProblem& problem) {
    Bits all(problem.faults);
    for (const Bits& shows : problem.shows) all.add(shows);
    return all;
}

/// By fault: the tests that show it.
std::vector<std::vector<std::size_t>> showers(const CoverProblem& problem) {
    std::vector<std::vector<std::size_t>> by_fault(problem.faults);
    for (std::size_t t = 0; t < problem.shows.size(); ++t) {
        for (std::size_t f = 0; f < problem.faults; ++f) {
            if (problem.shows[t].test(f)) by_fault[f].push_back(t);
        }
    }
    return by_fault;
}

/// Adds tests until everything is shown: those nothing can replace, then the most telling ones.
std::vector<std::size_t> grown(const CoverProblem& problem, const Bits& all,
                               const std::vector<std::vector<std::size_t>>& by_fault) {
    std::vector<std::size_t> tests = problem.kept;
    Bits shown(problem.faults);
    for (const std::size_t test : tests) shown.add(problem.shows[test]);
    for (std::size_t f = 0; f < problem.faults; ++f) {
        if (by_fault[f].size() != 1 || shown.test(f)) continue;
        tests.push_back(by_fault[f].front());
        shown.add(problem.shows[by_fault[f].front()]);
    }
    // What a test adds only ever shrinks, so a stale figure at the head is looked at again.
    using Gain = std::pair<std::size_t, std::size_t>;  // what it adds; counted down from the first
    std::priority_queue<Gain> gains;
    const std::size_t count = problem.shows.size();
    for (std::size_t t = 0; t < count; ++t) gains.push({problem.shows[t].count(), count - t});
    while (!all.within(shown)) {
        const std::size_t test = count - gains.top().second;
        gains.pop();
        const std::size_t gain = problem.shows[test].count_without(shown);
        if (!gains.empty() && gain < gains.top().first) {
            gains.push({gain, count - test});
            continue;
        }
        if (gain == 0) continue;
        tests.push_back(test);
        shown.add(problem.shows[test]);
    }
    return tests;
}

/// Drops every test that is not kept and without which nothing is lost, the last chosen first.
void prune(const CoverProblem& problem, std::vector<std::size_t>& tests) {
    std::vector<std::size_t> times(problem.faults, 0);
    const auto count = [&](std::size_t test, int sign) {
        for (std::size_t f = 0; f < problem.faults; ++f) {
            if (problem.shows[test].test(f)) times[f] += static_cast<std::size_t>(sign);
        }
    };
    for (const std::size_t test : tests) count(test, 1);
    for (std::size_t i = tests.size(); i-- > problem.kept.size();) {
        bool needed = false;
        for (std::size_t f = 0; f < problem.faults && !needed; ++f) {
            needed = problem.shows[tests[i]].test(f) && times[f] == 1;
        }
        if (needed) continue;
        count(tests[i], -1);
        tests.erase(tests.begin() + static_cast<std::ptrdiff_t>(i));
    }
}

/// Branch and bound over the fault with the fewest tests.
class CoverSearch {
public:
    CoverSearch(const CoverProblem& problem, const Bits& all,
                const std::vector<std::vector<std::size_t>>& by_fault, std::size_t steps)
        : problem_(problem), all_(all), by_fault_(by_fault), steps_(steps) {}

    /// A cover smaller than `best`, if the steps suffice to find one.
    bool improve(std::vector<std::size_t>& best) {
        best_ = best;
        chosen_ = problem_.kept;
        Bits shown(problem_.faults);
        for (const std::size_t test : chosen_) shown.add(problem_.shows[test]);
        descend(shown);
        best = best_;
        return !exhausted_;
    }

private:
    /// Faults not yet shown, no two of which share a test.
    std::size_t bound(const Bits& shown) const {
        Bits used(problem_.shows.size());
        std::size_t faults = 0;
        for (std::size_t f = 0; f < problem_.faults; ++f) {
            if (!all_.test(f) || shown.test(f)) continue;
            const auto is_used = [&](std::size_t test) { return used.test(test); };
            if (std::ranges::any_of(by_fault_[f], is_used)) continue;
            for (const std::size_t test : by_fault_[f]) used.set(test);
            ++faults;
        }
        return faults;
    }

    void descend(const Bits& shown) {
        if (steps_ == 0) {
            exhausted_ = true;
            return;
        }
        --steps_;
        if (all_.within(shown)) {
            if (chosen_.size() < best_.size()) best_ = chosen_;
            return;
        }
        if (chosen_.size() + bound(shown) >= best_.size()) return;
        for (const std::size_t test : by_fault_[hardest(shown)]) {
            Bits more = shown;
            more.add(problem_.shows[test]);
            chosen_.push_back(test);
            descend(more);
            chosen_.pop_back();
        }
    }

    std::size_t hardest(const Bits& shown) const {
        std::size_t best = problem_.faults;
        for (std::size_t f = 0; f < problem_.faults; ++f) {
            if (!all_.test(f) || shown.test(f)) continue;
            if (best == problem_.faults || by_fault_[f].size() < by_fault_[best].size()) best = f;
        }
        return best;
    }

    const CoverProblem& problem_;
    const Bits& all_;
    const std::vector<std::vector<std::size_t>>& by_fault_;
    std::size_t steps_;
    std::vector<std::size_t> chosen_, best_;
    bool exhausted_ = false;
};

}  // namespace

bool Bits::none() const {
    return std::ranges::all_of(words_, [](std::uint64_t word) { return word == 0; });
}

std::size_t Bits::count() const {
    std::size_t bits = 0;
    for (const std::uint64_t word : words_) bits += static_cast<std::size_t>(std::popcount(word));
    return bits;
}

std::size_t Bits::count_without(const Bits& other) const {
    std::size_t bits = 0;
    for (std::size_t i = 0; i < words_.size(); ++i) {
        bits += static_cast<std::size_t>(std::popcount(words_[i] & ~other.words_[i]));
    }
    return bits;
}

void Bits::add(const Bits& other) {
    for (std::size_t i = 0; i < words_.size(); ++i) words_[i] |= other.words_[i];
}

Cover least_cover(const CoverProblem& problem, std::size_t most_steps) {
    const Bits all = all_shown(problem);
    const auto by_fault = showers(problem);
    std::vector<std::size_t> tests = grown(problem, all, by_fault);
    prune(problem, tests);
    const bool proved = CoverSearch(problem, all, by_fault, most_steps).improve(tests);
    std::ranges::sort(tests);
    return {std::move(tests), proved};
}

std::size_t packing_bound(const CoverProblem& problem) {
    const auto by_fault = showers(problem);
    std::vector<std::size_t> order;
    for (std::size_t f = 0; f < problem.faults; ++f) {
        if (!by_fault[f].empty()) order.push_back(f);
    }
    std::ranges::stable_sort(order, {}, [&](std::size_t f) { return by_fault[f].size(); });
    Bits used(problem.shows.size());
    std::size_t faults = 0;
    for (const std::size_t f : order) {
        const auto is_used = [&](std::size_t test) { return used.test(test); };
        if (std::ranges::any_of(by_fault[f], is_used)) continue;
        for (const std::size_t test : by_fault[f]) used.set(test);
        ++faults;
    }
    return faults;
}

}  // namespace pinfold
