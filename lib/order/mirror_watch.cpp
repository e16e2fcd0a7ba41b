#include "order/mirror_watch.hpp"

#include <algorithm>

namespace pinfold {

void MirrorWatch::restart() {
    level_.pending.assign(1, {});
    numbers_.clear();
    numbers_.try_emplace({}, 0U);
}

std::size_t MirrorWatch::class_of_supply(int supply) const {
    return static_cast<std::size_t>(
        std::ranges::find(ground_.classes.all, supply, &ItemClass::supply) -
        ground_.classes.all.begin());
}

int MirrorWatch::left_of_supply(const Node& node, int supply) const {
    return level_.left(node, level_.group_of[class_of_supply(supply)]);
}

bool MirrorWatch::may_guess(const Node& node, const ItemClass& supply) const {
    const std::vector<int>& pending = level_.pending[node.obligations];
    int guessed = 0;
    for (std::size_t i = 1; i < pending.size(); i += 2) {
        guessed += pending[i] == guess_mark + supply.supply ? 1 : 0;
    }
    return guessed < left_of_supply(node, supply.supply);
}

bool MirrorWatch::pay(Node& child, const ItemClass& here, int opposite) {
    const std::vector<int>& pending = level_.pending[child.obligations];
    for (std::size_t i = 0; i < pending.size(); i += 2) {
        if (pending[i] != opposite) continue;
        const int what = pending[i + 1];
        if (what >= guess_mark && here.supply != what - guess_mark) return false;
        if (what < guess_mark) {
            const ItemClass& there = ground_.classes.all[class_of_supply(what)];
            const int harm = (there.harms(here) ? 1 : 0) + (here.harms(there) ? 1 : 0);
            if (level_.harmless && harm > 0) return false;
            child.so_far += harm;
        }
        std::vector<int> rest = pending;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i),
                   rest.begin() + static_cast<std::ptrdiff_t>(i) + 2);
        child.obligations = number(std::move(rest));
        return true;
    }
    return !here.is_supply();
}

std::uint32_t MirrorWatch::with(std::uint32_t obligations, int conductor, int what) {
    std::vector<int> more = level_.pending[obligations];
    more.insert(more.end(), {conductor, what});
    return number(std::move(more));
}

std::uint32_t MirrorWatch::number(std::vector<int> pending) {
    const auto [found, is_new] =
        numbers_.try_emplace(std::move(pending), static_cast<std::uint32_t>(numbers_.size()));
    if (is_new) level_.pending.push_back(found->first);
    return found->second;
}

std::int32_t MirrorWatch::harm_ahead(const Node& node) const {
    if (!level_.has_obligations) return 0;
    return std::max(harm_reversed(node), harm_beside(node));
}

int MirrorWatch::mates_left(const Node& node) const {
    int mates = 0;
    for (std::size_t g = 0; g < level_.first_class.size(); ++g) {
        const ItemClass& any = ground_.classes.all[level_.first_class[g]];
        const bool is_mate = any.withstands != 0 || any.kind == OrderItem::Kind::open;
        if (is_mate) mates += level_.left(node, g) * any.width();
    }
    return mates;
}

/// Harm beside supplies once the ribbon sits one place off: where a row of them begins, and
/// where it ends before the ribbon does, unless a mate lies there.
std::int32_t MirrorWatch::harm_beside(const Node& node) const {
    if (ground_.problem.shift != 1 || node.conductor == 0 || node.window[0] == 0) return 0;
    const ItemClass& last = ground_.classes.all[node.window[0] - 1U];
    int edges = 0, supplies = 0;
    for (const ItemClass& any : ground_.classes.all) {
        if (!any.is_supply() || left_of_supply(node, any.supply) == 0) continue;
        supplies += left_of_supply(node, any.supply);
        if (last.supply != any.supply && last.withstands == 0 &&
            last.kind != OrderItem::Kind::open) {
            edges = 1;
        }
    }
    const bool more = ground_.problem.conductors - node.conductor > supplies;
    if (last.is_supply() && more) edges += 1;
    return edges == 0 ? 0 : std::max(0, edges - 2 * mates_left(node));
}

std::int32_t MirrorWatch::harm_reversed(const Node& node) const {
    if (node.obligations == 0) return 0;
    std::map<int, int> short_of;
    const std::vector<int>& pending = level_.pending[node.obligations];
    for (std::size_t i = 1; i < pending.size(); i += 2) {
        // A guess takes one of the supply's conductors away from those that wait for a mate.
        ++short_of[pending[i] >= guess_mark ? pending[i] - guess_mark : pending[i]];
    }
    int harm = 0;
    for (const auto& [supply, waiting] : short_of) {
        harm += std::max(0, waiting - left_of_supply(node, supply));
    }
    return harm == 0 ? 0 : std::max(0, harm - mates_left(node));
}

}  // namespace pinfold
