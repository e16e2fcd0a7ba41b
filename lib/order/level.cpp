#include "order/level.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "order/groups.hpp"
#include "order/level_cost.hpp"
#include "order/mirror_watch.hpp"
#include "order/node_index.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_nodes = 2'500'000;
constexpr std::size_t few_nodes = 2'000;

class LevelSearch {
public:
    LevelSearch(const Ground& ground, Level& level)
        : ground_(ground),
          level_(level),
          cost_(ground.problem, ground.classes, level.aim),
          index_(level.nodes),
          watch_(ground, level) {}

    /// Lays out all that costs at most `budget` in all, as far as the bounds can tell.
    Outcome run(std::int32_t budget, std::size_t most = most_nodes) {
        budget_ = budget;
        level_.nodes.clear();
        level_.arcs.clear();
        watch_.restart();
        index_.clear();
        layers_.assign(static_cast<std::size_t>(ground_.problem.conductors) + 1, {});
        layers_[0].push_back(index_.find(Node{}).first);
        std::size_t steps = 0;
        for (std::vector<std::uint32_t>& layer : layers_) {
            narrow(layer);
            for (std::size_t i = 0; i < layer.size(); ++i) {
                if (level_.nodes.size() > most) return Outcome::stopped;
                if (++steps % 4096 == 0 && ground_.stop && ground_.stop()) return Outcome::stopped;
                expand(layer[i]);
            }
        }
        return settle();
    }

private:
    /// Leaves the most promising parts of a beam.
    void narrow(std::vector<std::uint32_t>& layer) const {
        if (ground_.beam == 0 || layer.size() <= ground_.beam) return;
        std::ranges::stable_sort(layer, {}, [&](std::uint32_t n) {
            const Node& node = level_.nodes[n];
            return node.so_far + ahead(node);
        });
        layer.resize(ground_.beam);
    }

    /// Costs to go, from the last conductor back.
    Outcome settle() {
        for (Node& end : level_.nodes) end.to_go = unreachable;
        for (std::size_t c = layers_.size(); c-- > 0;) {
            for (const std::uint32_t n : layers_[c]) {
                Node& node = level_.nodes[n];
                if (c + 1 == layers_.size()) {
                    if (node.obligations == 0) node.to_go = cost_.of_end(node.window);
                    continue;
                }
                for (std::uint32_t a = node.first_arc; a < node.first_arc + node.arcs; ++a) {
                    const Arc& arc = level_.arcs[a];
                    const std::int32_t beyond = level_.nodes[arc.child].to_go;
                    if (beyond < unreachable) node.to_go = std::min(node.to_go, arc.cost + beyond);
                }
            }
        }
        level_.best = level_.nodes.front().to_go;
        return level_.best < unreachable ? Outcome::done : Outcome::impossible;
    }

    void expand(std::uint32_t n) {
        here_ = n;
        level_.nodes[n].first_arc = static_cast<std::uint32_t>(level_.arcs.size());
        if (level_.nodes[n].conductor < ground_.problem.conductors) {
            if (ground_.before) {
                along_arcs();
            } else {
                for (std::size_t g = 0; g < level_.first_class.size(); ++g) lay(g, {}, 0);
            }
        }
        Node& node = level_.nodes[n];
        node.arcs = static_cast<std::uint32_t>(level_.arcs.size()) - node.first_arc;
    }

    void along_arcs() {
        const Level& before = *ground_.before;
        const Node& parent = before.nodes[level_.nodes[here_].parent];
        for (std::uint32_t a = parent.first_arc; a < parent.first_arc + parent.arcs; ++a) {
            const Arc& arc = before.arcs[a];
            if (!before.is_best(parent, arc)) continue;
            for (std::size_t g = 0; g < level_.first_class.size(); ++g) {
                if (before.group_of[level_.first_class[g]] == arc.step.group) {
                    lay(g, arc.step, arc.child);
                }
            }
        }
    }

    /// Lays a group on the next conductors, in every way that the level tells apart.
    void lay(std::size_t group, Step step, std::uint32_t parent) {
        const Node& node = level_.nodes[here_];
        if (level_.left(node, group) == 0 || !may_begin(group, node.conductor)) return;
        Node child = node;
        child.parent = parent;
        child.used += level_.stride[group];
        child.so_far = node.so_far;
        step.group = static_cast<std::uint8_t>(group);
        if (ground_.bound && !follow_bound(node, group, child)) return;
        lay_conductor(child, step, 0);
    }

    bool may_begin(std::size_t group, int conductor) const {
        for (std::size_t c = 0; c < level_.group_of.size(); ++c) {
            if (level_.group_of[c] == group &&
                pinfold::may_begin(ground_.problem, ground_.classes, c, conductor)) {
                return true;
            }
        }
        return false;
    }

    bool follow_bound(const Node& node, std::size_t group, Node& child) const {
        const Level& bound = *ground_.bound;
        const Node& from = bound.nodes[node.bound];
        for (std::uint32_t a = from.first_arc; a < from.first_arc + from.arcs; ++a) {
            if (bound.arcs[a].step.group != group) continue;
            child.bound = bound.arcs[a].child;
            return true;
        }
        return false;
    }

    /// Lays the first or second conductor of a group, with every guess of what lies opposite.
    void lay_conductor(Node child, Step step, int half) {
        const std::size_t item_class = level_.first_class[step.group];
        const ItemClass& here = ground_.classes.all[item_class];
        if (half == here.width()) return name(child, step);
        child.so_far += cost_.of_conductor(child.window, item_class, half == 1);
        child.window = cost_.after(child.window, item_class);
        const int at = child.conductor++;
        if (!level_.has_obligations) return lay_conductor(child, step, half + 1);

        const int opposite = ground_.problem.conductors - 1 - at;
        if (at == opposite) return lay_conductor(child, step, half + 1);
        if (at > opposite) {
            if (watch_.pay(child, here, opposite)) lay_conductor(child, step, half + 1);
            return;
        }
        if (here.is_supply()) {
            child.obligations = watch_.with(child.obligations, at, here.supply);
            return lay_conductor(child, step, half + 1);
        }
        lay_conductor(child, step, half + 1);
        for (const ItemClass& supply : ground_.classes.all) {
            if (!supply.is_supply() || !watch_.may_guess(child, supply)) continue;
            if (level_.harmless && supply.harms(here)) continue;
            Node guessed = child;
            guessed.so_far += supply.harms(here) ? 1 : 0;
            guessed.obligations = watch_.with(child.obligations, at, guess_mark + supply.supply);
            Step with_guess = step;
            with_guess.guess =
                static_cast<std::uint8_t>(step.guess | (supply.supply + 1) << (4 * half));
            lay_conductor(guessed, with_guess, half + 1);
        }
    }

    /// Chooses the items themselves where the level tells them apart.
    void name(Node& child, Step step) {
        if (!level_.items_known) return add(child, step);
        const ItemClass& here = ground_.classes.all[level_.first_class[step.group]];
        if (!level_.has_items) return add_item(child, step, step.item, step.flipped);
        const Node node = level_.nodes[here_];  // a copy: nodes are added below
        for (const std::size_t item : here.items) {
            if (here.has_names()) {
                const auto& waits = cost_.waits_for(item);
                const bool is_laid = (node.placed[item / 64] >> (item % 64) & 1U) != 0;
                const bool must_wait =
                    (waits[0] & ~node.placed[0]) != 0 || (waits[1] & ~node.placed[1]) != 0;
                if (is_laid || must_wait) continue;
            }
            for (const bool flipped : {false, true}) {
                if (flipped && here.kind != OrderItem::Kind::pair) continue;
                if (!may_lie(ground_.problem, item, node.conductor, flipped)) continue;
                add_item(child, step, item, flipped);
            }
        }
    }

    void add_item(Node child, Step step, std::size_t item, bool flipped) {
        child.so_far += cost_.of_item(level_.nodes[here_], level_, item, flipped);
        if (ground_.classes.all[ground_.classes.class_of[item]].has_names()) {
            child.placed[item / 64] |= std::uint64_t{1} << (item % 64);
        }
        step.item = static_cast<std::uint8_t>(item);
        step.flipped = flipped;
        add(child, step);
    }

    /// What must still be paid at the least.
    std::int32_t ahead(const Node& child) const {
        const bool hazards = level_.aim == Aim::hazards;
        if (!ground_.bound) return hazards ? watch_.harm_ahead(child) : 0;
        const std::int32_t bound = ground_.bound->nodes[child.bound].to_go;
        // The bound knows what is met one place off; what is met in reverse comes on top.
        return hazards && bound < unreachable ? bound + watch_.harm_reversed(child) : bound;
    }

    void add(const Node& child, const Step& step) {
        if (child.so_far + ahead(child) > budget_) return;
        if (level_.harmless && watch_.harm_reversed(child) > 0) return;
        const auto [number, is_new] = index_.find(child);
        if (is_new) {
            layers_[child.conductor].push_back(number);
        } else {
            Node& known = level_.nodes[number];
            known.so_far = std::min(known.so_far, child.so_far);
        }
        level_.arcs.push_back({number, child.so_far - level_.nodes[here_].so_far, step});
    }

    const Ground& ground_;
    Level& level_;
    StepCost cost_;
    NodeIndex index_;
    MirrorWatch watch_;
    std::vector<std::vector<std::uint32_t>> layers_;
    std::int32_t budget_ = 0;
    std::uint32_t here_ = 0;
};

/// The budget's next step: twice the last one, but less where that would lay out far more than what
/// has been laid out already; `growth` is what the last step brought, and grows with steps as
/// powers do.
std::int32_t next_step(std::int32_t step, double growth) {
    constexpr double wanted = 4.0;
    if (growth * growth <= wanted) return 2 * step;
    return std::max(1, static_cast<std::int32_t>(step * std::log(wanted) / std::log(growth)));
}

}  // namespace

Outcome solve_level(const Ground& ground, const std::vector<Aim>& aims_so_far, Level& level) {
    group_classes(ground.classes, aims_so_far, level);
    const bool grows = ground.bound || level.has_obligations || level.aim == Aim::crossings;
    LevelSearch search(ground, level);
    if (!grows || ground.beam > 0) return search.run(unreachable - 1);

    if (level.harmless) {
        // There may be no such order, which is soon seen in a small graph.
        const Outcome outcome = search.run(unreachable - 1, few_nodes);
        if (outcome != Outcome::stopped) return outcome;
    }
    // Costs that prove too high are not laid out: the budget grows until an order fits in it.
    std::int32_t budget = ground.bound ? ground.bound->best : 0;
    std::int32_t least = budget;  // no order costs less
    const std::int32_t unit = ground.bound ? std::max(1, budget / 128) : 1;
    std::size_t nodes_before = 1;
    for (std::int32_t step = unit;;) {
        const Outcome outcome = search.run(budget);
        if (outcome == Outcome::done) return outcome;
        if (outcome == Outcome::stopped) {
            level.best = least;
            return outcome;
        }
        if (budget >= unreachable / 4) return Outcome::impossible;
        least = budget + 1;
        step = next_step(step,
                         static_cast<double>(level.nodes.size()) /
                             static_cast<double>(std::exchange(nodes_before, level.nodes.size())));
        budget += step;
    }
}

}  // namespace pinfold
