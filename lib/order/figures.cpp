#include <algorithm>
#include <cstdlib>
#include <map>

#include "order/problem.hpp"

namespace pinfold {
namespace {

/// Traces that cross: places of the left conductor's pads beyond those of the right one's.
int crossing(const PadPlaces& left, const PadPlaces& right) {
    if (left.empty() || right.empty()) return 0;
    // With several pads to choose from, the nearest serves.
    return std::ranges::min(left) > std::ranges::max(right) ? 1 : 0;
}

bool has_traces(const OrderItem& item) {
    return item.kind != OrderItem::Kind::ground && item.kind != OrderItem::Kind::open;
}

class FigureCount {
public:
    FigureCount(const OrderProblem& problem, const ConductorOrder& order)
        : problem_(problem), order_(order), supplies_(supplies_of(problem)) {}

    Figures count() {
        for (int i = 0; i < size(); ++i) {
            count_guards(i);
            count_hazards(i);
            count_noise(i);
            count_crossings(i);
            count_returns(i);
        }
        for (int i = 0; i < size(); i += item(i)->width()) {
            const bool flipped = order_[static_cast<std::size_t>(i)].half == 1;
            add(Aim::mismatch,
                mismatch_at(problem_, order_[static_cast<std::size_t>(i)].item, i, flipped));
        }
        return figures_;
    }

private:
    int size() const { return static_cast<int>(order_.size()); }
    const OrderItem* item(int at) const {
        if (at < 0 || at >= size()) return nullptr;
        return &problem_.items[order_[static_cast<std::size_t>(at)].item];
    }
    bool same_item(int one, int other) const {
        return order_[static_cast<std::size_t>(one)].item ==
               order_[static_cast<std::size_t>(other)].item;
    }
    bool is_ground(int at) const { return item(at) && item(at)->kind == OrderItem::Kind::ground; }
    void add(Aim aim, std::int64_t what) { figure(figures_, aim) += what; }

    /// The sides of a fast half: one is its other half, the other wants a ground.
    void count_guards(int i) {
        if (!item(i)->fast) return;
        for (const int side : {i - 1, i + 1}) {
            const bool is_own = item(side) && same_item(i, side);
            if (!is_own && !is_ground(side)) add(Aim::guards, 1);
        }
    }

    void count_hazards(int i) {
        if (item(i)->kind != OrderItem::Kind::supply) return;
        const auto number = static_cast<std::size_t>(
            std::ranges::find(supplies_, order_[static_cast<std::size_t>(i)].item) -
            supplies_.begin());
        for (const int met : {size() - 1 - i, i + problem_.shift, i - problem_.shift}) {
            if (item(met) && harms(*item(i), number, *item(met))) add(Aim::hazards, 1);
        }
    }

    void count_noise(int i) {
        int grounds = 0;
        for (int d = 1; d <= coupling_reach && i + d < size(); ++d) {
            const OrderItem& one = *item(i);
            const OrderItem& other = *item(i + d);
            const bool is_own = one.kind == OrderItem::Kind::pair && same_item(i, i + d);
            if (!is_own) {
                add(Aim::noise,
                    std::int64_t{problem_.coupling.at(d, grounds)} *
                        (one.strength * other.sensitivity + other.strength * one.sensitivity));
            }
            if (is_ground(i + d)) ++grounds;
        }
    }

    void count_crossings(int i) {
        const Laid& left = order_[static_cast<std::size_t>(i)];
        if (!has_traces(*item(i))) return;
        for (int j = i + 1; j < size(); ++j) {
            const Laid& right = order_[static_cast<std::size_t>(j)];
            if (!has_traces(*item(j)) || left == right) continue;
            if (item(i)->kind == OrderItem::Kind::supply && left.item == right.item) continue;
            for (const std::size_t board : {0, 1}) {
                add(Aim::crossings,
                    crossing(item(i)->pads[board][static_cast<std::size_t>(left.half)],
                             item(j)->pads[board][static_cast<std::size_t>(right.half)]));
            }
        }
    }

    void count_returns(int i) {
        if (item(i)->kind != OrderItem::Kind::supply) return;
        if (!is_ground(i - 1) && !is_ground(i + 1)) add(Aim::returns, 1);
    }

    const OrderProblem& problem_;
    const ConductorOrder& order_;
    std::vector<std::size_t> supplies_;
    Figures figures_{};
};

/// Lateral way from a conductor to a pad, micrometres.
int lateral(const OrderProblem& problem, int conductor, const PadPlaces& pads) {
    if (pads.empty()) return 0;
    const int here = (2 * conductor + 1 - problem.conductors) * problem.pitch_um / 2;
    int least = std::abs(pads.front() - here);
    for (const int pad : pads) least = std::min(least, std::abs(pad - here));
    return least;
}

}  // namespace

std::string_view name_of(Aim aim) {
    switch (aim) {
        case Aim::guards: return "guards";
        case Aim::hazards: return "hazards";
        case Aim::noise: return "noise";
        case Aim::crossings: return "crossings";
        case Aim::mismatch: return "mismatch";
        case Aim::returns: return "returns";
    }
    return "";
}

Figures figures_of(const OrderProblem& problem, const ConductorOrder& order) {
    return FigureCount(problem, order).count();
}

int crossings_of(const OrderItem& left, const OrderItem& right) {
    if (!has_traces(left) || !has_traces(right)) return 0;
    int count = 0;
    for (const std::size_t board : {0, 1}) {
        for (int l = 0; l < left.width(); ++l) {
            for (int r = 0; r < right.width(); ++r) {
                count += crossing(left.pads[board][static_cast<std::size_t>(l)],
                                  right.pads[board][static_cast<std::size_t>(r)]);
            }
        }
    }
    return count;
}

int crossings_within(const OrderItem& pair, bool flipped) {
    if (pair.kind != OrderItem::Kind::pair) return 0;
    int count = 0;
    for (const auto& halves : pair.pads) {
        count += flipped ? crossing(halves[1], halves[0]) : crossing(halves[0], halves[1]);
    }
    return count;
}

std::int64_t mismatch_at(const OrderProblem& problem, std::size_t place, int conductor,
                         bool flipped) {
    const OrderItem& item = problem.items[place];
    if (item.kind != OrderItem::Kind::pair || !item.fast) return 0;
    std::array<int, 2> way{};
    for (const auto& halves : item.pads) {
        for (const std::size_t half : {0, 1}) {
            const int at = conductor + ((half == 1) != flipped ? 1 : 0);
            way[half] += lateral(problem, at, halves[half]);
        }
    }
    return std::abs(way[0] - way[1]) + (way[0] + way[1]) / 2;
}

bool harms(const OrderItem& supply, std::size_t supply_number, const OrderItem& met) {
    if (&supply == &met || met.kind == OrderItem::Kind::open) return false;
    return (met.withstands >> supply_number & 1U) == 0;
}

std::vector<std::size_t> supplies_of(const OrderProblem& problem) {
    std::vector<std::size_t> supplies;
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
        if (problem.items[i].kind == OrderItem::Kind::supply) supplies.push_back(i);
    }
    return supplies;
}

bool keeps_the_rules(const OrderProblem& problem, const ConductorOrder& order) {
    if (order.size() != static_cast<std::size_t>(problem.conductors)) return false;
    std::map<Laid, int> laid;
    for (const Laid& here : order) ++laid[here];
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
        const OrderItem& item = problem.items[i];
        const bool is_pair = item.kind == OrderItem::Kind::pair;
        const int wanted = is_pair ? 1 : item.copies;
        const auto count = [&](int half) {
            const auto found = laid.find(Laid{i, half});
            return found == laid.end() ? 0 : found->second;
        };
        if (count(0) != wanted || count(1) != (is_pair ? 1 : 0)) return false;
        if (!is_pair) continue;
        const auto plus = std::ranges::find(order, Laid{i, 0});
        const auto minus = std::ranges::find(order, Laid{i, 1});
        if (std::abs(plus - minus) != 1) return false;
    }
    return std::ranges::all_of(problem.fixed, [&](const FixedPlace& fixed) {
        return order[static_cast<std::size_t>(fixed.conductor)] == Laid{fixed.item, fixed.half};
    });
}

}  // namespace pinfold
