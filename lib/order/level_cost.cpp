#include "order/level_cost.hpp"

#include <algorithm>
#include <map>

namespace pinfold {
namespace {

bool is_ground(const ItemClass* item_class) { return item_class && item_class->is_ground(); }

/// What of a class makes a difference to an aim once it lies `slot` conductors behind.
std::vector<int> trace_left(const OrderProblem& problem, const ItemClass& here, Aim aim,
                            std::size_t slot) {
    switch (aim) {
        case Aim::guards:
            return slot == 0 ? std::vector<int>{here.fast, here.is_ground()} : std::vector<int>{};
        case Aim::hazards:
            if (static_cast<int>(slot) >= problem.shift) return {};
            return {here.supply, static_cast<int>(here.withstands),
                    here.kind == OrderItem::Kind::open};
        case Aim::noise: {
            std::vector<int> left{here.strength, here.sensitivity};
            if (slot < 2) left.push_back(here.is_ground());
            return left;
        }
        case Aim::returns:
            if (slot == 0) return {here.is_supply(), here.is_ground()};
            return slot == 1 ? std::vector<int>{here.is_ground()} : std::vector<int>{};
        default: return {};
    }
}

/// Whether one item's pads lie at or before another's, half by half, on both boards.
bool lies_before(const OrderItem& one, const OrderItem& other) {
    bool any = false;
    for (const std::size_t board : {0, 1}) {
        std::vector<int> mine, theirs;
        for (std::size_t half = 0; half < static_cast<std::size_t>(one.width()); ++half) {
            const PadPlaces& a = one.pads[board][half];
            const PadPlaces& b = other.pads[board][half];
            if (a.size() > 1 || b.size() > 1 || a.size() != b.size()) return false;
            mine.insert(mine.end(), a.begin(), a.end());
            theirs.insert(theirs.end(), b.begin(), b.end());
        }
        std::ranges::sort(mine);
        std::ranges::sort(theirs);
        if (mine.size() != theirs.size()) return false;
        for (std::size_t i = 0; i < mine.size(); ++i) {
            if (mine[i] > theirs[i]) return false;
            any = any || mine[i] < theirs[i];
        }
    }
    return any;
}

}  // namespace

StepCost::StepCost(const OrderProblem& problem, const Classes& classes, Aim aim)
    : problem_(problem), classes_(classes), aim_(aim) {
    for (std::size_t slot = 0; slot < 3; ++slot) {
        std::map<std::vector<int>, std::uint8_t> first;
        for (std::size_t c = 0; c < classes.all.size(); ++c) {
            const std::vector<int> left = trace_left(problem, classes.all[c], aim, slot);
            const auto number = left.empty() ? std::uint8_t{0} : static_cast<std::uint8_t>(c + 1);
            stand_in_[slot].push_back(first.try_emplace(left, number).first->second);
        }
    }
    if (aim == Aim::crossings) settle_crossings();
    if (aim == Aim::crossings || aim == Aim::mismatch) settle_waits();
}

void StepCost::settle_crossings() {
    const std::vector<OrderItem>& items = problem_.items;
    excess_.assign(items.size(), std::vector<int>(items.size(), 0));
    for (std::size_t u = 0; u < items.size(); ++u) {
        const std::array within{crossings_within(items[u], false),
                                crossings_within(items[u], true)};
        const int least_within = std::min(within[0], within[1]);
        excess_within_.push_back({within[0] - least_within, within[1] - least_within});
        base_ += least_within;
        for (std::size_t v = 0; v < items.size(); ++v) {
            if (u == v) continue;
            const int before = crossings_of(items[u], items[v]);
            const int least = std::min(before, crossings_of(items[v], items[u]));
            excess_[u][v] = before - least;
            if (u < v) base_ += std::int64_t{least} * items[u].copies * items[v].copies;
        }
    }
}

/// Two items of one class, one of them with its pads before the other's on both boards: with the
/// two exchanged nothing but crossings changes, and these cannot become fewer. Items without pads
/// are all alike, and come in their own order.
void StepCost::settle_waits() {
    const bool by_pads = aim_ == Aim::crossings;
    waits_for_.assign(problem_.items.size(), {});
    for (const ItemClass& here : classes_.all) {
        if (!here.has_names()) continue;
        for (const std::size_t u : here.items) {
            for (const std::size_t v : here.items) {
                if (u == v) continue;
                const OrderItem& one = problem_.items[u];
                const OrderItem& other = problem_.items[v];
                const bool is_twin =
                    one.pads == other.pads && u < v && one.pads == decltype(one.pads){};
                const bool is_first = by_pads && lies_before(one, other) &&
                                      crossings_of(one, other) < crossings_of(other, one);
                if (is_twin || is_first) waits_for_[v][u / 64] |= std::uint64_t{1} << (u % 64);
            }
        }
    }
}

int StepCost::of_conductor(const Window& window, std::size_t item_class, bool second) const {
    const ItemClass& here = classes_.all[item_class];
    const ItemClass* const last = at(window, 0);
    switch (aim_) {
        case Aim::guards: {
            if (second) return 0;
            return (last && last->fast && !here.is_ground() ? 1 : 0) +
                   (here.fast && !is_ground(last) ? 1 : 0);
        }
        case Aim::hazards: {
            const ItemClass* const off = at(window, static_cast<std::size_t>(problem_.shift - 1));
            if (!off) return 0;
            return (off->harms(here) ? 1 : 0) + (here.harms(*off) ? 1 : 0);
        }
        case Aim::noise: {
            int cost = 0, grounds = 0;
            for (std::size_t slot = 0; slot < 3; ++slot) {
                const ItemClass* const there = at(window, slot);
                if (there && !(second && slot == 0)) {
                    cost +=
                        problem_.coupling.at(static_cast<int>(slot) + 1, grounds) *
                        (here.strength * there->sensitivity + there->strength * here.sensitivity);
                }
                if (is_ground(there)) ++grounds;
            }
            return cost;
        }
        case Aim::returns:
            return last && last->is_supply() && !is_ground(at(window, 1)) && !here.is_ground() ? 1
                                                                                               : 0;
        default: return 0;
    }
}

int StepCost::of_end(const Window& window) const {
    const ItemClass* const last = at(window, 0);
    if (!last) return 0;
    if (aim_ == Aim::guards) return last->fast ? 1 : 0;
    if (aim_ == Aim::returns) return last->is_supply() && !is_ground(at(window, 1)) ? 1 : 0;
    return 0;
}

StepCost::Window StepCost::after(const Window& window, std::size_t item_class) const {
    Window next{stand_in_[0][item_class], 0, 0};
    for (const std::size_t slot : {0, 1}) {
        if (window[slot] != 0) next[slot + 1] = stand_in_[slot + 1][window[slot] - 1U];
    }
    if (aim_ == Aim::returns && !classes_.all[item_class].is_supply()) next[1] = 0;
    return aim_ == Aim::noise ? without_silence(next) : next;
}

/// Forgets what can disturb nothing that follows.
StepCost::Window StepCost::without_silence(Window window) const {
    int grounds = 0;
    for (std::size_t slot = 0; slot < 3; ++slot) {
        const bool ground = is_ground(at(window, slot));
        if (!ground && problem_.coupling.at(static_cast<int>(slot) + 1, grounds) == 0) {
            window[slot] = 0;
        }
        if (ground) ++grounds;
    }
    for (std::size_t slot = 3; slot-- > 0;) {
        if (!is_quiet(at(window, slot))) break;
        window[slot] = 0;
    }
    return window;
}

int StepCost::of_item(const Node& node, const Level& level, std::size_t item, bool flipped) const {
    if (aim_ == Aim::mismatch) {
        return static_cast<int>(mismatch_at(problem_, item, node.conductor, flipped));
    }
    if (aim_ != Aim::crossings) return 0;
    int cost = excess_within_[item][flipped ? 1 : 0];
    for (std::size_t v = 0; v < problem_.items.size(); ++v) {
        if (excess_[item][v] == 0) continue;
        const std::size_t there = classes_.class_of[v];
        const bool named = classes_.all[there].has_names();
        const int left = named ? ((node.placed[v / 64] >> (v % 64) & 1U) == 0 ? 1 : 0)
                               : level.left(node, level.group_of[there]);
        cost += excess_[item][v] * left;
    }
    return cost;
}

}  // namespace pinfold
