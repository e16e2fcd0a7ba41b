// An index of the nodes of one level, by what they are.
#pragma once

#include <utility>
#include <vector>

#include "order/level.hpp"

namespace pinfold {

/// Finds the nodes of one level by what they are.
class NodeIndex {
public:
    explicit NodeIndex(std::vector<Node>& nodes) : nodes_(nodes), slots_(first_slots, 0) {}

    void clear() { slots_.assign(first_slots, 0); }

    /// The number of the node, and whether it is a new one.
    std::pair<std::uint32_t, bool> find(const Node& node) {
        if (nodes_.size() * 2 >= slots_.size()) grow();
        std::size_t slot = hash(node) & (slots_.size() - 1);
        while (slots_[slot] != 0) {
            if (same(nodes_[slots_[slot] - 1], node)) return {slots_[slot] - 1, false};
            slot = (slot + 1) & (slots_.size() - 1);
        }
        nodes_.push_back(node);
        slots_[slot] = static_cast<std::uint32_t>(nodes_.size());
        return {slots_[slot] - 1, true};
    }

private:
    static constexpr std::size_t first_slots = 1024;

    static bool same(const Node& one, const Node& other) {
        return one.used == other.used && one.parent == other.parent && one.placed == other.placed &&
               one.obligations == other.obligations && one.window == other.window &&
               one.conductor == other.conductor;
    }
    static std::uint64_t mix(std::uint64_t seed, std::uint64_t value) {
        seed ^= value + 0x9e3779b97f4a7c15U + (seed << 6) + (seed >> 2);
        return (seed ^ (seed >> 31)) * 0xbf58476d1ce4e5b9U;
    }
    static std::size_t hash(const Node& node) {
        const std::uint64_t window = node.window[0] | node.window[1] << 8 | node.window[2] << 16;
        std::uint64_t seed = mix(node.used, node.parent);
        seed = mix(seed, std::uint64_t{node.obligations} << 32 | window << 8 | node.conductor);
        seed = mix(seed, node.placed[0]);
        seed = mix(seed, node.placed[1]);
        return static_cast<std::size_t>(seed ^ (seed >> 29));
    }
    void grow() {
        slots_.assign(slots_.size() * 2, 0);
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            std::size_t slot = hash(nodes_[n]) & (slots_.size() - 1);
            while (slots_[slot] != 0) slot = (slot + 1) & (slots_.size() - 1);
            slots_[slot] = static_cast<std::uint32_t>(n + 1);
        }
    }

    std::vector<Node>& nodes_;
    std::vector<std::uint32_t> slots_;
};

}  // namespace pinfold
