#include "order/clash.hpp"

#include <fmt/format.h>

#include <map>

#include "order/level.hpp"

namespace pinfold {
namespace {

std::string in_words(const OrderProblem& problem, const FixedPlace& fixed) {
    const OrderItem& item = problem.items[fixed.item];
    return fmt::format("{} on conductor {}", item.names[static_cast<std::size_t>(fixed.half)],
                       fixed.conductor + 1);
}

/// A smallest set of fixed places that cannot be kept together: sets of one, two and three are all
/// tried; a larger one is what is left when no place can be taken away.
std::vector<FixedPlace> clashing_places(const OrderProblem& problem) {
    const auto clashes = [&](std::vector<FixedPlace> some) {
        OrderProblem only = problem;
        only.fixed = std::move(some);
        return !keeps_together(only);
    };
    const std::vector<FixedPlace>& all = problem.fixed;
    for (const FixedPlace& a : all) {
        if (clashes({a})) return {a};
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (clashes({all[j], all[i]})) return {all[j], all[i]};
        }
    }
    constexpr std::size_t few = 12;
    for (std::size_t i = 0; all.size() <= few && i < all.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            for (std::size_t k = 0; k < j; ++k) {
                if (clashes({all[k], all[j], all[i]})) return {all[k], all[j], all[i]};
            }
        }
    }
    std::vector<FixedPlace> left = all;
    for (std::size_t i = left.size(); i-- > 0;) {
        std::vector<FixedPlace> fewer = left;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        if (clashes(fewer)) left = std::move(fewer);
    }
    return left;
}

/// The rule that fixed places which cannot be kept together break.
std::string broken_rule(const OrderProblem& problem, const std::vector<FixedPlace>& places) {
    std::map<int, Laid> on;
    std::map<Laid, int> conductors;
    for (const FixedPlace& fixed : places) {
        const Laid here{fixed.item, fixed.half};
        const auto [known, is_new] = on.try_emplace(fixed.conductor, here);
        if (known->second != here) return "a conductor carries one signal";
        if (!is_new) continue;
        const OrderItem& item = problem.items[fixed.item];
        const int copies = item.kind == OrderItem::Kind::pair ? 1 : item.copies;
        if (++conductors[here] > copies) {
            return fmt::format("{} has {} conductor{}",
                               item.names[static_cast<std::size_t>(fixed.half)], copies,
                               copies == 1 ? "" : "s");
        }
    }
    return "the halves of a pair lie side by side";
}

}  // namespace

bool keeps_together(const OrderProblem& problem) {
    std::map<int, Laid> laid;
    std::vector<int> copies(problem.items.size(), 0);
    for (const FixedPlace& fixed : problem.fixed) {
        const Laid here{fixed.item, fixed.half};
        const auto [known, is_new] = laid.try_emplace(fixed.conductor, here);
        if (known->second != here) return false;
        const OrderItem& item = problem.items[fixed.item];
        const int most = item.kind == OrderItem::Kind::pair ? 2 : item.copies;
        if (is_new && ++copies[fixed.item] > most) return false;
    }
    const Classes classes = classes_of(problem);
    Level level;
    return solve_level({problem, classes, nullptr, nullptr, {}, 0}, {Aim::guards}, level) ==
           Outcome::done;
}

std::vector<std::string> clash_of(const OrderProblem& problem) {
    std::vector<std::string> rules;
    const std::vector<FixedPlace> places = clashing_places(problem);
    for (const FixedPlace& fixed : places) rules.push_back(in_words(problem, fixed));
    rules.push_back(broken_rule(problem, places));
    return rules;
}

}  // namespace pinfold
