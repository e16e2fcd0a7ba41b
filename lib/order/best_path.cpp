#include "order/best_path.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace pinfold {
namespace {

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

}  // namespace

ConductorOrder first_best_path(const OrderProblem& problem, const Classes& classes,
                               const Level& level) {
    return PathReader(problem, classes, level).read();
}

std::optional<std::uint64_t> count_best_orders(const OrderProblem& problem, const Classes& classes,
                                               const Level& level) {
    const auto paths = count_paths(level);
    const auto alike = twins(problem, classes);
    return paths && alike ? product(paths, *alike) : std::nullopt;
}

}  // namespace pinfold
