#include "order/search.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <limits>
#include <stdexcept>

#include "order/clash.hpp"
#include "order/level_cost.hpp"

namespace pinfold {
namespace {

/// One best path through a level, its items named as far as the level does not name them itself.
class PathReader {
public:
    PathReader(const OrderProblem& problem, const Classes& classes, const Level& level)
        : problem_(problem), classes_(classes), level_(level) {
        for (const ItemClass& any : classes.all) left_.push_back(any.count);
        for (const auto& pin : classes.pin) {
            if (pin && !classes.all[*pin].pinned) --left_[*pin];  // kept for its place
        }
        taken_.resize(problem.items.size());
    }

    ConductorOrder read() {
        for (std::uint32_t n = 0; level_.nodes[n].conductor < problem_.conductors;) {
            const Arc& arc = first_best(level_.nodes[n]);
            lay(level_.nodes[n].conductor, arc.step);
            n = arc.child;
        }
        return std::move(order_);
    }

private:
    const Arc& first_best(const Node& node) const {
        const Arc* best = nullptr;
        const auto rank = [&](const Arc& arc) {
            const std::size_t item =
                level_.items_known ? arc.step.item
                                   : classes_.all[level_.first_class[arc.step.group]].items[0];
            return std::tuple(item, arc.step.flipped, arc.step.guess);
        };
        for (std::uint32_t a = node.first_arc; a < node.first_arc + node.arcs; ++a) {
            const Arc& arc = level_.arcs[a];
            if (!level_.is_best(node, arc)) continue;
            if (!best || rank(arc) < rank(*best)) best = &arc;
        }
        if (!best) throw std::logic_error("the search for an order lost its way");
        return *best;
    }

    void lay(int conductor, const Step& step) {
        std::size_t item = step.item;
        bool flipped = step.flipped;
        if (!level_.items_known) {
            item = item_of(class_at(conductor, step.group));
            flipped = !may_lie(problem_, item, conductor, false);
        }
        taken_[item] = true;
        if (problem_.items[item].kind != OrderItem::Kind::pair) return order_.push_back({item, 0});
        order_.push_back({item, flipped ? 1 : 0});
        order_.push_back({item, flipped ? 0 : 1});
    }

    std::size_t class_at(int conductor, std::size_t group) {
        const auto& pin = classes_.pin[static_cast<std::size_t>(conductor)];
        if (pin) return *pin;
        for (std::size_t c = 0; c < classes_.all.size(); ++c) {
            if (level_.group_of[c] != group || left_[c] == 0) continue;
            if (!may_begin(problem_, classes_, c, conductor)) continue;
            --left_[c];
            return c;
        }
        throw std::logic_error("the search for an order miscounted");
    }

    std::size_t item_of(std::size_t item_class) const {
        const ItemClass& here = classes_.all[item_class];
        if (!here.has_names()) return here.items.front();
        return *std::ranges::find_if(here.items, [&](std::size_t item) { return !taken_[item]; });
    }

    const OrderProblem& problem_;
    const Classes& classes_;
    const Level& level_;
    std::vector<int> left_;
    std::vector<char> taken_;
    ConductorOrder order_;
};

std::optional<std::uint64_t> product(std::optional<std::uint64_t> one, std::uint64_t other) {
    if (!one || (other != 0 && *one > std::numeric_limits<std::uint64_t>::max() / other)) return {};
    return *one * other;
}

/// Best paths through a level; nothing if there are more than can be counted.
std::optional<std::uint64_t> count_paths(const Level& level) {
    std::vector<std::uint32_t> order(level.nodes.size());
    for (std::uint32_t n = 0; n < order.size(); ++n) order[n] = n;
    std::ranges::stable_sort(order, std::ranges::greater{},
                             [&](std::uint32_t n) { return level.nodes[n].conductor; });
    const int last = level.nodes[order.front()].conductor;
    std::vector<std::uint64_t> ways(level.nodes.size(), 0);
    for (const std::uint32_t n : order) {
        const Node& node = level.nodes[n];
        if (node.to_go >= unreachable) continue;
        if (node.conductor == last) ways[n] = 1;
        for (std::uint32_t a = node.first_arc; a < node.first_arc + node.arcs; ++a) {
            if (!level.is_best(node, level.arcs[a])) continue;
            const std::uint64_t more = ways[level.arcs[a].child];
            if (ways[n] > std::numeric_limits<std::uint64_t>::max() - more) return std::nullopt;
            ways[n] += more;
        }
    }
    return ways.front();
}

/// How often an order stands for others that differ only by items no board tells apart.
std::optional<std::uint64_t> twins(const OrderProblem& problem, const Classes& classes) {
    std::optional<std::uint64_t> ways = 1;
    for (const ItemClass& any : classes.all) {
        if (!any.has_names()) continue;
        std::uint64_t alike = 0;
        for (const std::size_t item : any.items) {
            if (problem.items[item].pads == decltype(OrderItem::pads){}) {
                ways = product(ways, ++alike);
            }
        }
    }
    return ways;
}

class OrderSearch {
public:
    OrderSearch(const OrderProblem& problem, const Stop& stop)
        : problem_(problem), stop_(stop), classes_(classes_of(problem)) {}

    /// Nothing if no order keeps the rules.
    std::optional<BestOrder> run() {
        std::size_t proved = 0;
        for (const Aim aim : problem_.ranking) {
            const std::int64_t base = StepCost(problem_, classes_, aim).base();
            if (beam_ == 0) {
                const Outcome outcome = solve(aim);
                if (outcome == Outcome::impossible) return std::nullopt;
                figure(best_.bound, aim) = levels_.back().best + base;
                if (outcome == Outcome::done) {
                    ++proved;
                    continue;
                }
                // From here on nothing is proved, but what is found may still be good.
                beam_ = 1000;
                drop_last();
            } else {
                figure(best_.bound, aim) = base;
            }
            if (solve(aim) != Outcome::done) {
                drop_last();
                break;
            }
        }
        return finish(proved);
    }

private:
    void drop_last() {
        items_known_ = levels_.back().items_known && !levels_.back().has_items;
        levels_.pop_back();
        aims_.pop_back();
    }

    Outcome solve(Aim aim) {
        aims_.push_back(aim);
        const bool by_name = aim == Aim::crossings || aim == Aim::mismatch;
        Level level;
        level.aim = aim;
        level.has_obligations = aim == Aim::hazards && !supplies_of(problem_).empty();
        level.has_items = by_name && !items_known_;
        items_known_ = items_known_ || by_name;
        level.items_known = items_known_;

        const Level* const before = levels_.empty() ? nullptr : &levels_.back();
        Ground ground{problem_, classes_, before, nullptr, before && !beam_ ? stop_ : Stop{},
                      beam_};
        Level wider, bound;
        bound.aim = aim;
        // What an easier question costs bounds what this one does: the same without the watch on
        // the mirror places. Where items have names already, the two graphs do not run alike.
        const bool watched = level.has_obligations || (before && before->has_obligations);
        if (watched && !items_known_ && beam_ == 0 && (aim == Aim::hazards || aim == Aim::noise)) {
            if (!level.has_obligations) wider = without_obligations(*before);
            const Ground easier{problem_, classes_, level.has_obligations ? before : &wider,
                                nullptr,  stop_,    0};
            if (solve_level(easier, aims_, bound) == Outcome::done) ground.bound = &bound;
            best_.states += bound.nodes.size();
        }
        const Outcome outcome = solve_level(ground, aims_, level);
        best_.states += level.nodes.size();
        levels_.push_back(std::move(level));
        if (levels_.size() > 2) levels_[levels_.size() - 3] = {};  // nothing looks there any more
        return outcome;
    }

    BestOrder finish(std::size_t proved) {
        best_.order = PathReader(problem_, classes_, levels_.back()).read();
        best_.cost = figures_of(problem_, best_.order);
        for (std::size_t k = 0; k < proved; ++k) {
            const Aim aim = problem_.ranking[k];
            if (figure(best_.cost, aim) == figure(best_.bound, aim)) continue;
            throw std::logic_error(fmt::format("the search and the figures disagree on {}: {}, {}",
                                               name_of(aim), figure(best_.bound, aim),
                                               figure(best_.cost, aim)));
        }
        if (!keeps_the_rules(problem_, best_.order)) {
            throw std::logic_error("the search broke a rule");
        }
        best_.proved = proved == problem_.ranking.size();
        if (best_.proved && items_known_) {
            const auto paths = count_paths(levels_.back());
            const auto alike = twins(problem_, classes_);
            if (paths && alike) best_.optima = product(paths, *alike);
        }
        return std::move(best_);
    }

    const OrderProblem& problem_;
    const Stop& stop_;
    Classes classes_;
    std::vector<Aim> aims_;
    std::deque<Level> levels_;
    BestOrder best_;
    bool items_known_ = false;
    std::size_t beam_ = 0;
};

}  // namespace

OrderAnswer best_order(const OrderProblem& problem, const Stop& stop) {
    if (problem.fixed.empty() || keeps_together(problem)) {
        if (auto best = OrderSearch(problem, stop).run()) return std::move(*best);
    }
    return NoOrder{clash_of(problem)};
}

}  // namespace pinfold
