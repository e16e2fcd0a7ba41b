#include "breakout/layers.hpp"

#include <algorithm>
#include <numeric>
#include <optional>

namespace pinfold {
namespace {

/// By wire: the greatest weight of a rising sequence that ends with it, and the wire before it.
struct Chains {
    std::vector<std::int64_t> weight;
    std::vector<std::optional<std::size_t>> before;
};

Chains heaviest_chains(const std::vector<std::size_t>& far_place,
                       const std::vector<std::int64_t>& weight) {
    Chains chains{weight, std::vector<std::optional<std::size_t>>(weight.size())};
    for (std::size_t w = 0; w < weight.size(); ++w) {
        for (std::size_t left = 0; left < w; ++left) {
            const std::int64_t joined = chains.weight[left] + weight[w];
            if (far_place[left] > far_place[w] || joined <= chains.weight[w]) continue;
            chains.weight[w] = joined;
            chains.before[w] = left;
        }
    }
    return chains;
}

bool all_cross(const std::vector<std::size_t>& group, const std::vector<std::size_t>& far_place) {
    // In near order, so that far places must fall.
    return std::ranges::is_sorted(group, std::greater<>(),
                                  [&](std::size_t w) { return far_place[w]; });
}

/// How many groups of wires that all cross it takes to have each wire in as many as it weighs.
/// Heights between two ends of `chains` share a group, so that they are counted together. The
/// groups are looked at; were one of them none, the bound would be that all stay.
std::int64_t cover_by_groups(const Chains& chains, const std::vector<std::size_t>& far_place,
                             const std::vector<std::int64_t>& weight) {
    const std::int64_t everything = std::reduce(weight.begin(), weight.end());
    std::vector<std::int64_t> heights{0};
    for (std::size_t w = 0; w < weight.size(); ++w) {
        heights.push_back(chains.weight[w] - weight[w]);
        heights.push_back(chains.weight[w]);
    }
    std::ranges::sort(heights);
    std::vector<std::int64_t> covered(weight.size(), 0);
    std::int64_t groups = 0;
    for (std::size_t h = 1; h < heights.size(); ++h) {
        const std::int64_t times = heights[h] - heights[h - 1];
        if (times == 0) continue;
        std::vector<std::size_t> group;
        for (std::size_t w = 0; w < weight.size(); ++w) {
            const std::int64_t top = chains.weight[w];
            if (top - weight[w] <= heights[h - 1] && heights[h] <= top) group.push_back(w);
        }
        if (!all_cross(group, far_place)) return everything;
        for (const std::size_t w : group) covered[w] += times;
        groups += times;
    }
    return covered == weight ? groups : everything;
}

/// Puts one wire where it belongs among those that are settled.
class Diver {
public:
    Diver(const std::vector<std::size_t>& far_place, const std::vector<bool>& stays)
        : far_place_(far_place), settled_(stays), columns_(far_place.size()) {
        std::iota(columns_.begin(), columns_.end(), std::size_t{0});
        reach_.assign(columns_.size(), 0);
    }

    void dive_right(std::size_t wire) {
        const std::size_t from = column_of(wire);
        std::size_t to = from;
        for (std::size_t c = from + 1; c < columns_.size(); ++c) {
            if (settled_[columns_[c]] && far_place_[columns_[c]] < far_place_[wire]) to = c;
        }
        dive(wire, from, to);
    }

    void dive_left(std::size_t wire) {
        const std::size_t from = column_of(wire);
        std::size_t to = from;
        for (std::size_t c = from; c-- > 0;) {
            if (settled_[columns_[c]] && far_place_[columns_[c]] > far_place_[wire]) to = c;
        }
        dive(wire, from, to);
    }

    std::vector<Dive> dives() { return std::move(dives_); }

private:
    std::size_t column_of(std::size_t wire) const {
        return static_cast<std::size_t>(std::ranges::find(columns_, wire) - columns_.begin());
    }

    void dive(std::size_t wire, std::size_t from, std::size_t to) {
        const auto [left, right] = std::minmax(from, to);
        // One column is kept free between two dives of one stage.
        const std::size_t begin = left > 0 ? left - 1 : 0;
        const std::size_t end = std::min(right + 2, columns_.size());
        std::size_t stage = 0;
        for (std::size_t c = begin; c < end; ++c) stage = std::max(stage, reach_[c]);
        for (std::size_t c = left; c <= right; ++c) reach_[c] = stage + 1;
        dives_.push_back({wire, from, to, stage});

        columns_.erase(columns_.begin() + static_cast<long>(from));
        columns_.insert(columns_.begin() + static_cast<long>(to), wire);
        settled_[wire] = true;
    }

    const std::vector<std::size_t>& far_place_;
    std::vector<bool> settled_;
    std::vector<std::size_t> columns_;  ///< the wire in each
    std::vector<std::size_t> reach_;    ///< by column: the stages it has seen
    std::vector<Dive> dives_;
};

}  // namespace

LayerChoice keep_on_top(const std::vector<std::size_t>& far_place,
                        const std::vector<std::int64_t>& weight) {
    LayerChoice choice{std::vector<bool>(weight.size(), false), 0, 0};
    if (weight.empty()) return choice;
    const Chains chains = heaviest_chains(far_place, weight);
    const auto last = std::ranges::max_element(chains.weight);
    choice.weight = *last;
    choice.bound = cover_by_groups(chains, far_place, weight);
    std::optional<std::size_t> wire = static_cast<std::size_t>(last - chains.weight.begin());
    while (wire) {
        choice.stays[*wire] = true;
        wire = chains.before[*wire];
    }
    return choice;
}

std::vector<std::int64_t> layer_weights(const std::vector<Route>& wires,
                                        const std::vector<bool>& fast) {
    const auto count = static_cast<std::int64_t>(wires.size());
    const std::int64_t of_slit = count + 1;  // more than all others together
    const std::int64_t of_half = of_slit * (count * count + 1);
    std::vector<std::int64_t> weights(wires.size(), 1);
    for (std::size_t w = 0; w < wires.size(); ++w) {
        if (!fast[w]) continue;
        std::int64_t slits = 0;  // all that crosses a wire that stays runs beneath it
        for (std::size_t other = 0; other < wires.size(); ++other) {
            slits += crosses(wires, w, other) ? 1 : 0;
        }
        weights[w] = of_half - of_slit * slits;
    }
    return weights;
}

std::vector<Dive> dives_of(const std::vector<std::size_t>& far_place,
                           const std::vector<bool>& stays) {
    // A wire that dives crosses one that stays, and all such on the same side of it.
    const auto goes_right = [&](std::size_t wire) {
        for (std::size_t w = wire + 1; w < stays.size(); ++w) {
            if (stays[w] && far_place[w] < far_place[wire]) return true;
        }
        return false;
    };
    Diver diver(far_place, stays);
    std::vector<bool> right(stays.size(), false);
    for (std::size_t w = stays.size(); w-- > 0;) {
        right[w] = !stays[w] && goes_right(w);
        if (right[w]) diver.dive_right(w);
    }
    for (std::size_t w = 0; w < stays.size(); ++w) {
        if (!stays[w] && !right[w]) diver.dive_left(w);
    }
    return diver.dives();
}

}  // namespace pinfold
