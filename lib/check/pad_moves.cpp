#include "check/pad_moves.hpp"

#include <algorithm>
#include <optional>
#include <unordered_map>

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// Takes pads out of both lists, two by two, whose keys are equal; both are in order of their keys.
template <class Key>
void match_up(Places& one, Places& other, const Key& key, std::vector<Places>& matched) {
    Places left_one, left_other;
    std::size_t k = 0;
    for (const std::size_t pad : one) {
        while (k < other.size() && key(other[k]) < key(pad)) left_other.push_back(other[k++]);
        if (k < other.size() && key(other[k]) == key(pad)) {
            matched.push_back({pad, other[k++]});
        } else {
            left_one.push_back(pad);
        }
    }
    left_other.insert(left_other.end(), other.begin() + static_cast<std::ptrdiff_t>(k),
                      other.end());
    one = std::move(left_one);
    other = std::move(left_other);
}

/// Walks along moves from net to net; where the walk comes upon itself, that was a ring.
class RingWalk {
public:
    explicit RingWalk(PadMoves& moves) : moves_(moves) {
        for (auto& [step, pads] : moves) {
            std::ranges::reverse(pads);  // the first is taken first
            ways_[step.first].push_back(step);
        }
        for (auto& [net, steps] : ways_) std::ranges::reverse(steps);
    }

    std::vector<Places> take() {
        PadMoves left;
        for (const auto& [step, pads] : moves_) walk_from(step.first, left);
        moves_ = std::move(left);
        return std::move(rings_);
    }

private:
    struct Taken {
        NetStep step;
        std::size_t pad;
    };

    void walk_from(std::size_t start, PadMoves& left) {
        std::vector<Taken> path;
        std::unordered_map<std::size_t, std::size_t> place{{start, 0}};  // of nets on the path
        std::size_t net = start;
        while (true) {
            if (const auto next = take_step(net)) {
                path.push_back(*next);
                net = next->step.second;
                const auto [before, is_new] = place.try_emplace(net, path.size());
                if (!is_new) close(path, before->second, place);
            } else {
                if (path.empty()) return;
                left[path.back().step].push_back(path.back().pad);
                place.erase(net);
                net = path.back().step.first;
                path.pop_back();
            }
        }
    }

    std::optional<Taken> take_step(std::size_t net) {
        const auto ways = ways_.find(net);
        if (ways == ways_.end()) return std::nullopt;
        std::vector<NetStep>& steps = ways->second;
        while (!steps.empty() && moves_[steps.back()].empty()) steps.pop_back();
        if (steps.empty()) return std::nullopt;
        Places& pads = moves_[steps.back()];
        const Taken taken{steps.back(), pads.back()};
        pads.pop_back();
        return taken;
    }

    /// The path from `from` on has come back to where it was.
    void close(std::vector<Taken>& path, std::size_t from,
               std::unordered_map<std::size_t, std::size_t>& place) {
        Places ring;
        for (std::size_t i = from; i < path.size(); ++i) {
            ring.push_back(path[i].pad);
            if (i > from) place.erase(path[i].step.first);
        }
        path.resize(from);
        rings_.push_back(std::move(ring));
    }

    PadMoves& moves_;
    std::unordered_map<std::size_t, std::vector<NetStep>> ways_;
    std::vector<Places> rings_;
};

}  // namespace

std::vector<Places> take_pairs(PadMoves& moves, const std::vector<ComparedPad>& pads) {
    std::vector<Places> pairs;
    const auto by_port = [&](std::size_t pad) { return pads[pad].port; };
    const auto any = [](std::size_t) { return 0; };
    for (auto& [step, there] : moves) {
        const auto back = moves.find({step.second, step.first});
        if (back == moves.end()) continue;
        match_up(there, back->second, by_port, pairs);
        match_up(there, back->second, any, pairs);
    }
    std::erase_if(moves, [](const auto& entry) { return entry.second.empty(); });
    return pairs;
}

std::vector<Places> take_rings(PadMoves& moves) { return RingWalk(moves).take(); }

}  // namespace pinfold
