// Ordering problems for tests: made by a small generator, and all orders of a small one in turn.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <random>

#include "order/search.hpp"

namespace pinfold {

inline OrderItem ground_item(int copies) {
    OrderItem item;
    item.kind = OrderItem::Kind::ground;
    item.names[0] = "GND";
    item.copies = copies;
    return item;
}

inline OrderItem open_item(int copies) {
    OrderItem item = ground_item(copies);
    item.kind = OrderItem::Kind::open;
    item.names[0] = "open";
    return item;
}

inline OrderItem single_item(const std::string& name, int strength = 1, int sensitivity = 1) {
    OrderItem item;
    item.names[0] = name;
    item.strength = strength;
    item.sensitivity = sensitivity;
    return item;
}

inline OrderItem pair_item(const std::string& name, bool fast = true) {
    OrderItem item = single_item(name + "+", 4, 3);
    item.kind = OrderItem::Kind::pair;
    item.names[1] = name + "-";
    item.fast = fast;
    return item;
}

inline OrderItem supply_item(const std::string& name, int copies) {
    OrderItem item = single_item(name, 1, 0);
    item.kind = OrderItem::Kind::supply;
    item.copies = copies;
    return item;
}

/// Sets how many conductors there are and puts them in the order of the items' copies.
inline OrderProblem problem_of(std::vector<OrderItem> items) {
    OrderProblem problem;
    problem.items = std::move(items);
    for (const OrderItem& item : problem.items) problem.conductors += item.copies * item.width();
    return problem;
}

/// A problem of a few blocks, different for each seed.
inline OrderProblem generated_problem(unsigned seed, int blocks) {
    std::mt19937 random(seed);
    const auto below = [&](unsigned n) { return static_cast<int>(random() % n); };
    std::vector<OrderItem> items;
    int left = blocks;
    if (const int grounds = below(4); grounds > 0)
        items.push_back(ground_item(grounds)), left -= grounds;
    const int supplies = below(3);
    for (int s = 0; s < supplies && left > 1; ++s) {
        const int copies = 1 + below(2);
        items.push_back(supply_item(fmt::format("V{}", s), copies));
        left -= copies;
    }
    if (below(3) == 0 && left > 1) items.push_back(open_item(1)), --left;
    for (int i = 0; left > 0; ++i, --left) {
        OrderItem item = below(2) == 0 ? pair_item(fmt::format("P{}", i), below(4) != 0)
                                       : single_item(fmt::format("S{}", i), 1 + 2 * below(2), 1);
        if (below(2) == 0) item.withstands = static_cast<std::uint32_t>(below(4));
        for (const std::size_t board : {0, 1}) {
            for (int h = 0; h < item.width() && below(5) != 0; ++h) {
                item.pads[board][static_cast<std::size_t>(h)] = {250 * (below(21) - 10)};
            }
        }
        items.push_back(item);
    }
    for (OrderItem& item : items) {
        if (item.kind == OrderItem::Kind::supply) {
            for (auto& board : item.pads) {
                for (int n = below(3); n > 0; --n) board[0].push_back(250 * (below(21) - 10));
            }
        }
    }
    std::ranges::shuffle(items, random);
    OrderProblem problem = problem_of(std::move(items));
    problem.shift = 1 + (below(4) == 0 ? 1 : 0);
    if (below(2) == 0) std::ranges::shuffle(problem.ranking, random);
    for (int n = below(3); n > 0 && below(2) == 0; --n) {
        const auto item =
            static_cast<std::size_t>(below(static_cast<unsigned>(problem.items.size())));
        const int half = problem.items[item].width() == 2 ? below(2) : 0;
        problem.fixed.push_back({below(static_cast<unsigned>(problem.conductors)), item, half});
    }
    return problem;
}

/// Every order that keeps the halves of pairs together, in turn.
inline void each_order(const OrderProblem& problem,
                       const std::function<void(const ConductorOrder&)>& visit) {
    std::vector<int> left;
    for (const OrderItem& item : problem.items) left.push_back(item.copies);
    ConductorOrder order;
    const std::function<void()> lay = [&] {
        if (order.size() == static_cast<std::size_t>(problem.conductors)) return visit(order);
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            if (left[i] == 0) continue;
            --left[i];
            const bool is_pair = problem.items[i].kind == OrderItem::Kind::pair;
            for (const int first : {0, 1}) {
                if (first == 1 && !is_pair) continue;
                order.push_back({i, first});
                if (is_pair) order.push_back({i, 1 - first});
                lay();
                order.pop_back();
                if (is_pair) order.pop_back();
            }
            ++left[i];
        }
    };
    lay();
}

/// Figures in the order of a ranking, to be compared.
inline std::vector<std::int64_t> ranked(const OrderProblem& problem, const Figures& figures) {
    std::vector<std::int64_t> ranked;
    for (const Aim aim : problem.ranking) ranked.push_back(figure(figures, aim));
    return ranked;
}

}  // namespace pinfold
