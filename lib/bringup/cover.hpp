// Cover: the fewest tests that together show every fault, and how few they can be.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace pinfold {

/// A row of bits of fixed length.
class Bits {
public:
    Bits() = default;
    explicit Bits(std::size_t count) : words_((count + 63) / 64, 0) {}

    void set(std::size_t bit) { words_[bit / 64] |= std::uint64_t{1} << (bit % 64); }
    bool test(std::size_t bit) const { return (words_[bit / 64] >> (bit % 64) & 1) != 0; }
    bool none() const;
    std::size_t count() const;
    std::size_t count_without(const Bits& other) const;  ///< bits set here and not there
    bool within(const Bits& other) const { return count_without(other) == 0; }
    void add(const Bits& other);
    friend auto operator<=>(const Bits&, const Bits&) = default;

private:
    std::vector<std::uint64_t> words_;
};

/// By test: which of `faults` it shows.
struct CoverProblem {
    std::size_t faults = 0;
    std::vector<Bits> shows;
    std::vector<std::size_t> kept;  ///< tests that are made in any case
};

struct Cover {
    std::vector<std::size_t> tests;  ///< rising
    bool is_least = false;           ///< proved that no fewer do
};

/// Tests that show every fault that any test shows, the kept ones among them; no other test of
/// them can be left out.
///
/// Tests that alone show a fault first, then greedily whichever shows most, then every test that
/// has become superfluous is dropped. Up to `most_steps` of a search by branch and bound follow, so
/// small cases are exact.
Cover least_cover(const CoverProblem& problem, std::size_t most_steps = 20'000);

/// A lower bound: faults no two of which share a test, found greedily.
std::size_t packing_bound(const CoverProblem& problem);

}  // namespace pinfold
