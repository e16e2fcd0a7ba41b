// Layers: which wires of a breakout stay on the top layer, and how the others get past them.
#pragma once

#include <cstdint>

#include "breakout/escape.hpp"

namespace pinfold {

/// Wires that stay on top, none of which cross, with the greatest weight together.
struct LayerChoice {
    std::vector<bool> stays;  ///< by wire
    std::int64_t weight = 0;  ///< of those that stay
    std::int64_t bound = 0;   ///< no choice weighs more
    bool proved() const { return weight == bound; }
};

/// Chooses the wires that stay: the heaviest rising sequence of far places.
///
/// The bound is worked out apart from it: groups of wires that all cross each other, of which one
/// at most can stay. Each wire is in as many of them as it weighs, so their number is the bound.
/// All weights must be positive. Source: the two are equal by Dilworth's theorem, weighted
/// (perfect graphs); tests/breakout/layers.cpp tries every choice.
LayerChoice keep_on_top(const std::vector<std::size_t>& far_place,
                        const std::vector<std::int64_t>& weight);

/// What a wire is worth on top. Halves of fast pairs come before all else, then that as little as
/// may be runs in the plane beneath those that stay, then every other wire alike.
std::vector<std::int64_t> layer_weights(const std::vector<Route>& wires,
                                        const std::vector<bool>& fast);

/// A wire that dives: from one column of the channel to another, beneath those between, which
/// step aside by one column each.
struct Dive {
    std::size_t wire = 0;
    std::size_t from = 0, to = 0;  ///< columns at that moment, counted from the left
    std::size_t stage = 0;         ///< dives of one stage pass beside each other
};

/// The dives that bring all wires from their near order into their far order.
///
/// Each wire that does not stay dives once: one via down, one up, which is the least for any wire
/// that leaves the top layer. Together they cross exactly `count_crossings` times: those that go
/// right dive from the rightmost on, then those that go left from the leftmost on, each as far as
/// what already lies right allows and no further.
std::vector<Dive> dives_of(const std::vector<std::size_t>& far_place,
                           const std::vector<bool>& stays);

}  // namespace pinfold
