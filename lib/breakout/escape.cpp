#include "breakout/escape.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <span>

#include "breakout/routed.hpp"
#include "breakout/trees.hpp"

namespace pinfold {
namespace {

class EscapeSearch {
public:
    EscapeSearch(const PadRows& rows, int most_steps)
        : rows_(rows), nets_(routed_nets(rows)), steps_left_(most_steps) {
        for (const std::size_t side : {0, 1}) {
            exits_[side].resize(rows.sides[side].pads.size());
            options_[side].resize(rows.sides[side].pads.size());
        }
        for (const Routed& net : nets_) open(net);
        // From left to right: what has gone round the right end keeps others off the left one.
        std::ranges::sort(open_, {}, [&](const Open& open) {
            return std::pair(open.side, rows_.sides[open.side].pads[open.pad].along_mm);
        });
    }

    Escape find() {
        for (const Routed& net : nets_) cost_ += settle(net);
        const int base = lower_bound();
        // Each pass begins with what the one before it found, and has a third of the steps.
        const int most = steps_left_;
        for (const Pass& pass :
             {Pass{false, false, most / 3 * 2}, Pass{true, false, most / 3}, Pass{true, true, 0}}) {
            pass_ = pass;
            choose_exit(0);
        }
        const bool all_tried = steps_left_ > 0 && !capped_;
        best_.bound = all_tried ? best_.crossings : std::min(base, best_.crossings);
        best_.unders_bound = all_tried ? best_.unders : 0;
        return std::move(best_);
    }

private:
    /// What is tried, and how many steps are to be left over.
    struct Pass {
        bool unders = false;         ///< exits on the bottom layer too
        bool crossed_trees = false;  ///< trees that cross themselves too
        int spare_steps = 0;
    };

    struct Open {
        std::size_t side = 0, pad = 0, net = 0;  ///< net: in nets_
        std::vector<Exit> exits;
    };

    void open(const Routed& net) {
        for (const std::size_t side : {0, 1}) {
            for (const std::size_t pad : net.pads[side]) {
                std::vector<Exit> exits = exits_of(rows_.sides[side], pad, rows_.rules);
                options_[side][pad] = exits;
                if (exits.size() == 1) {
                    exits_[side][pad] = exits.front();
                } else {
                    const auto number = static_cast<std::size_t>(&net - nets_.data());
                    open_.push_back({side, pad, number, std::move(exits)});
                }
            }
        }
    }

    Candidate candidate(std::size_t net, std::size_t near, std::size_t far) const {
        return candidate(net, near, far, *exits_[0][near], *exits_[1][far]);
    }
    Candidate candidate(std::size_t net, std::size_t near, std::size_t far, Exit near_exit,
                        Exit far_exit) const {
        return {net,
                {near, far},
                {mouthing_of(rows_.sides[0], near, near_exit),
                 mouthing_of(rows_.sides[1], far, far_exit)}};
    }

    /// No choice of what is still open crosses less: every wire to come crosses the laid ones as
    /// little as any of its exits lets it, and a net's wires together as little as any tree's.
    int lower_bound() const {
        int bound = cost_;
        for (const Routed& net : nets_) {
            if (!is_settled(net)) bound += least_tree(net);
        }
        return bound;
    }

    /// Crossings with the laid wires of the least tree that joins a net's pads.
    int least_tree(const Routed& net) const {
        int sum = 0;
        each_of_least_tree(
            net,
            [&](std::size_t near, std::size_t far) { return least_crossings(net.net, near, far); },
            [&](std::size_t, std::size_t, int cost) { sum += cost; });
        return sum;
    }

    /// The tree itself, once all exits are chosen.
    Tree tree_across(const Routed& net, const std::vector<Candidate>& laid) const {
        Tree tree;
        each_of_least_tree(
            net,
            [&](std::size_t near, std::size_t far) {
                return crossings_with(candidate(net.net, near, far), laid);
            },
            [&](std::size_t near, std::size_t far, int) {
                tree.push_back(candidate(net.net, near, far));
            });
        return tree;
    }

    int least_crossings(std::size_t net, std::size_t near, std::size_t far) const {
        int least = std::numeric_limits<int>::max();
        for (const Exit near_exit : exits_left(0, near)) {
            for (const Exit far_exit : exits_left(1, far)) {
                const Candidate wire = candidate(net, near, far, near_exit, far_exit);
                least = std::min(least, crossings_with(wire, singles_));
            }
        }
        return least;
    }

    /// The exit that is chosen, or those that may be.
    std::span<const Exit> exits_left(std::size_t side, std::size_t pad) const {
        const std::optional<Exit>& chosen = exits_[side][pad];
        if (chosen) return {&*chosen, 1};
        return options_[side][pad];
    }

    bool is_settled(const Routed& net) const {
        return net.is_single() && exits_[0][net.pads[0][0]] && exits_[1][net.pads[1][0]];
    }

    /// Lays the wire of a net that has but one, once both its exits are chosen; what it crosses.
    int settle(const Routed& net) {
        if (!is_settled(net)) return 0;
        const Candidate wire = candidate(net.net, net.pads[0][0], net.pads[1][0]);
        const int count = crossings_with(wire, singles_);
        singles_.push_back(wire);
        return count;
    }

    bool is_hopeless(int cost) const {
        return found_ && std::pair(cost, unders_) >= std::pair(best_.crossings, best_.unders);
    }
    /// A step costs what its bound does: a look at every net.
    bool is_stopped() {
        if (found_) steps_left_ -= static_cast<int>(nets_.size());
        return found_ && steps_left_ <= pass_.spare_steps;
    }

    bool has_room(const Open& open, Exit way) const {
        return fits_beside(rows_.sides[open.side], exits_[open.side], open.pad, way, rows_.rules);
    }

    void choose_exit(std::size_t n) {
        if ((found_ && is_hopeless(lower_bound())) || is_stopped()) return;
        if (n == open_.size()) {
            choose_trees();
            return;
        }
        const Open& open = open_[n];
        auto& exit = exits_[open.side][open.pad];
        for (const Exit way : open.exits) {
            if ((goes_under(way) && !pass_.unders) || !has_room(open, way)) continue;
            exit = way;
            const std::size_t before = singles_.size();
            const int added = settle(nets_[open.net]);
            cost_ += added;
            unders_ += goes_under(way) ? 1 : 0;
            choose_exit(n + 1);
            unders_ -= goes_under(way) ? 1 : 0;
            cost_ -= added;
            singles_.resize(before);
            exit.reset();
        }
    }

    /// All exits are chosen: the nets with several pads get their wires. Where trees may cross
    /// themselves, the net with the most of them comes last: of what is laid by then the least tree
    /// crosses as little as any.
    void choose_trees() {
        std::vector<const Routed*> nets;
        for (const Routed& net : nets_) {
            if (!net.is_single()) nets.push_back(&net);
        }
        const Routed* last = nullptr;
        if (pass_.crossed_trees && !nets.empty()) {
            const auto most = std::ranges::max_element(nets, {}, [](const Routed* net) {
                return std::min(net->pads[0].size(), net->pads[1].size());
            });
            last = *most;
            nets.erase(most);
        }
        std::vector<std::vector<Tree>> choices;
        for (const Routed* net : nets) choices.push_back(trees_of(*net));
        std::vector<int> least(choices.size() + 1, last ? least_tree(*last) : 0);
        for (std::size_t n = choices.size(); n-- > 0;) {
            least[n] = least[n + 1] + fewest_of(choices[n], singles_);
        }
        std::vector<Candidate> laid = singles_;
        choose_tree({choices, least, last}, 0, cost_, laid);
    }

    /// The trees to choose from, and what they cross at least of the single wires, from each net
    /// on.
    struct TreeChoice {
        const std::vector<std::vector<Tree>>& choices;
        const std::vector<int>& least;
        const Routed* last;  ///< the net whose tree follows from all others, if any
    };

    void choose_tree(const TreeChoice& open, std::size_t n, int cost,
                     std::vector<Candidate>& laid) {
        if (is_hopeless(cost + open.least[n])) return;
        if (n == open.choices.size()) {
            keep_with_last(open.last, cost, laid);
            return;
        }
        if (is_stopped()) return;
        for (const Tree& tree : open.choices[n]) {
            const int added = crossings_with(tree, laid);
            laid.insert(laid.end(), tree.begin(), tree.end());
            choose_tree(open, n + 1, cost + added, laid);
            laid.resize(laid.size() - tree.size());
        }
    }

    void keep_with_last(const Routed* last, int cost, const std::vector<Candidate>& laid) {
        if (!last) return keep(laid, cost);
        const Tree tree = tree_across(*last, laid);
        cost += crossings_with(tree, laid);
        if (is_hopeless(cost)) return;
        std::vector<Candidate> all = laid;
        all.insert(all.end(), tree.begin(), tree.end());
        keep(all, cost);
    }

    std::vector<Tree> trees_of(const Routed& net) {
        const TreeShapes& shapes = shapes_of(net);
        capped_ = capped_ || (pass_.crossed_trees && !shapes.complete);
        const std::size_t count = pass_.crossed_trees ? shapes.shapes.size() : shapes.planar;
        steps_left_ -= static_cast<int>(count);
        return trees_on(net, rows_, exits_, {shapes.shapes.data(), count});
    }

    const TreeShapes& shapes_of(const Routed& net) {
        const auto [known, is_new] = shapes_.try_emplace({net.pads[0].size(), net.pads[1].size()});
        if (is_new) {
            known->second = tree_shapes(known->first.first, known->first.second, most_trees);
        }
        return known->second;
    }

    void keep(const std::vector<Candidate>& laid, int cost) {
        found_ = true;
        best_.crossings = cost;
        best_.unders = unders_;
        best_.exits = exits_;
        best_.wires = routes_of(laid);
    }

    static constexpr std::size_t most_trees = 20'000;  ///< of one net; 4 pads against 4 have 4096

    const PadRows& rows_;
    std::vector<Routed> nets_;
    std::vector<Open> open_;
    std::array<std::vector<std::optional<Exit>>, 2> exits_;
    std::array<std::vector<std::vector<Exit>>, 2> options_;             ///< by side and pad
    std::map<std::pair<std::size_t, std::size_t>, TreeShapes> shapes_;  ///< by pads near and far
    std::vector<Candidate> singles_;
    int cost_ = 0;
    int unders_ = 0;
    int steps_left_;
    Pass pass_;
    bool found_ = false;
    bool capped_ = false;  ///< some net has more trees than were tried
    Escape best_;
};

}  // namespace

Escape fewest_crossings(const PadRows& rows, int most_steps) {
    return EscapeSearch(rows, most_steps).find();
}

}  // namespace pinfold
