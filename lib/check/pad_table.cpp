#include "check/pad_table.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "base/groups.hpp"

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// Nets of both sides that hang together through pads: groups of pads, each in order.
std::vector<Places> groups_of(const std::vector<ComparedPad>& pads) {
    std::unordered_map<std::size_t, std::size_t> meant_first, drawn_first;
    Groups joined(pads.size());
    for (std::size_t p = 0; p < pads.size(); ++p) {
        if (pads[p].drawn == no_net) continue;
        const std::size_t a = meant_first.try_emplace(pads[p].meant, p).first->second;
        const std::size_t b = drawn_first.try_emplace(pads[p].drawn, p).first->second;
        joined.join(p, a);
        joined.join(p, b);
    }
    std::map<std::size_t, std::size_t> order;
    std::vector<Places> groups;
    for (std::size_t p = 0; p < pads.size(); ++p) {
        if (pads[p].drawn == no_net) continue;
        const auto [found, is_new] = order.try_emplace(joined.first_of(p), groups.size());
        if (is_new) groups.emplace_back();
        groups[found->second].push_back(p);
    }
    return groups;
}

bool is_sound(const std::vector<ComparedPad>& pads, const Places& group) {
    return std::ranges::all_of(group, [&](std::size_t p) {
        return pads[p].meant == pads[group[0]].meant && pads[p].drawn == pads[group[0]].drawn;
    });
}

/// Explains one group of nets, holding one port (or none) to be where the slips are.
class Group {
public:
    Group(const std::vector<ComparedPad>& pads, const Places& group, std::size_t culprit)
        : pads_(pads), group_(group) {
        settle(culprit);
        sort_out();
    }

    const std::vector<PadCause>& causes() const { return causes_; }

private:
    /// Which drawn net stands for which net of the design: the one most of its pads are on, pads
    /// of the culprit counting least.
    void settle(std::size_t culprit) {
        constexpr long weight = 1000;
        std::map<std::pair<std::size_t, std::size_t>, long> overlap;
        for (const std::size_t p : group_) {
            overlap[{pads_[p].meant, pads_[p].drawn}] += pads_[p].port == culprit ? 1 : weight;
        }
        std::vector<std::pair<long, std::pair<std::size_t, std::size_t>>> sorted;
        for (const auto& [nets, count] : overlap) sorted.push_back({-count, nets});
        std::ranges::sort(sorted);
        for (const auto& [count, nets] : sorted) {
            if (home_.contains(nets.first) || owner_.contains(nets.second)) continue;
            home_[nets.first] = nets.second;
            owner_[nets.second] = nets.first;
        }
        settle_leftovers();
    }

    /// A net without a home and a drawn net without an owner, each lying in the other's partner,
    /// belong together: pads were exchanged with contacts that are alone on their net.
    void settle_leftovers() {
        std::map<std::size_t, Places> homeless, ownerless;
        for (const std::size_t p : group_) {
            if (!home_.contains(pads_[p].meant)) homeless[pads_[p].meant].push_back(p);
            if (!owner_.contains(pads_[p].drawn)) ownerless[pads_[p].drawn].push_back(p);
        }
        for (const auto& [meant, strays] : homeless) {
            const auto owner = owner_.find(pads_[strays[0]].drawn);
            for (const auto& [drawn, pads] : ownerless) {
                if (owner == owner_.end() || owner_.contains(drawn)) continue;
                if (pads.size() != strays.size() || pads_[pads[0]].meant != owner->second) continue;
                home_[meant] = drawn;
                owner_[drawn] = meant;
                break;
            }
        }
    }

    void sort_out() {
        std::map<std::pair<std::size_t, std::size_t>, Places> moved;  // from, to
        std::map<std::size_t, Places> open, joined;
        for (const std::size_t p : group_) {
            const auto home = home_.find(pads_[p].meant);
            const auto owner = owner_.find(pads_[p].drawn);
            if (home != home_.end() && home->second == pads_[p].drawn) continue;
            if (home == home_.end()) {
                joined[pads_[p].meant].push_back(p);
            } else if (owner == owner_.end()) {
                open[pads_[p].meant].push_back(p);
            } else {
                moved[{pads_[p].meant, owner->second}].push_back(p);
            }
        }
        pair_up(moved);
        close_rings(moved);
        for (const auto& [nets, pads] : moved) {
            for (const std::size_t p : pads) {
                causes_.push_back({PadCause::Kind::misplaced, {p}, company(p)});
            }
        }
        for (const auto& [net, pads] : open) {
            causes_.push_back({PadCause::Kind::open, pads, rest_of(net, pads)});
        }
        for (const auto& [net, pads] : joined) {
            causes_.push_back({PadCause::Kind::shorted, pads, company(pads[0])});
        }
    }

    /// Two pads that stand in each other's net are one slip; those of one port come first.
    void pair_up(std::map<std::pair<std::size_t, std::size_t>, Places>& moved) {
        for (auto& [nets, pads] : moved) {
            const auto back = moved.find({nets.second, nets.first});
            if (back == moved.end()) continue;
            for (const bool one_port : {true, false}) {
                for (std::size_t i = 0; i < pads.size();) {
                    const std::size_t port = pads_[pads[i]].port;
                    const auto other = std::ranges::find_if(back->second, [&](std::size_t q) {
                        return !one_port || pads_[q].port == port;
                    });
                    if (other == back->second.end()) {
                        ++i;
                        continue;
                    }
                    causes_.push_back({PadCause::Kind::exchanged, {pads[i], *other}, {}});
                    back->second.erase(other);
                    pads.erase(pads.begin() + static_cast<std::ptrdiff_t>(i));
                }
            }
        }
        std::erase_if(moved, [](const auto& entry) { return entry.second.empty(); });
    }

    /// Pads that each stand in the next one's net, round in a ring, are one slip too.
    void close_rings(std::map<std::pair<std::size_t, std::size_t>, Places>& moved) {
        bool again = true;
        while (again) {
            again = false;
            for (const auto& [start, pads] : moved) {
                Places ring;
                std::vector<std::pair<std::size_t, std::size_t>> steps;
                std::set<std::size_t> seen;
                std::size_t net = start.first;
                while (seen.insert(net).second) {
                    const auto step = moved.lower_bound({net, 0});
                    if (step == moved.end() || step->first.first != net) break;
                    ring.push_back(step->second.front());
                    steps.push_back(step->first);
                    net = step->first.second;
                }
                if (ring.empty() || net != start.first) continue;
                causes_.push_back({PadCause::Kind::exchanged, ring, {}});
                for (const auto& step : steps) {
                    Places& left = moved[step];
                    left.erase(left.begin());
                    if (left.empty()) moved.erase(step);
                }
                again = true;
                break;
            }
        }
    }

    /// Pads of other nets that lie on the same drawn net as `pad`.
    Places company(std::size_t pad) const {
        Places others;
        const auto owner = owner_.find(pads_[pad].drawn);
        for (const std::size_t p : group_) {
            const bool at_home = owner != owner_.end() && pads_[p].meant == owner->second;
            if (pads_[p].drawn == pads_[pad].drawn && at_home) others.push_back(p);
        }
        return others;
    }

    Places rest_of(std::size_t net, const Places& without) const {
        Places rest;
        for (const std::size_t p : group_) {
            if (pads_[p].meant == net && std::ranges::find(without, p) == without.end()) {
                rest.push_back(p);
            }
        }
        return rest;
    }

    const std::vector<ComparedPad>& pads_;
    const Places& group_;
    std::map<std::size_t, std::size_t> home_, owner_;
    std::vector<PadCause> causes_;
};

std::vector<PadCause> causes_of_group(const std::vector<ComparedPad>& pads, const Places& group) {
    constexpr std::size_t most_culprits = 8;
    std::set<std::size_t> ports;
    for (const std::size_t p : group) ports.insert(pads[p].port);
    std::vector<PadCause> best = Group(pads, group, no_net).causes();
    std::size_t tried = 0;
    for (const std::size_t port : ports) {
        if (best.size() < 2 || ++tried > most_culprits) break;
        const Group other(pads, group, port);
        if (other.causes().size() < best.size()) best = other.causes();
    }
    return best;
}

}  // namespace

void Tally::count(std::size_t meant, std::size_t drawn, long step) {
    if (drawn == no_net) return;
    long& pads = pads_[{meant, drawn}];
    const bool turns = step > 0 ? pads == 0 : pads == 1;
    pads += step;
    if (!turns) return;
    for (long* nets : {&of_meant_[meant], &of_drawn_[drawn]}) {
        const long before = *nets;
        *nets += step;
        if (std::max(before, *nets) > 1) cost_ += step;
    }
}

void Tally::add(std::size_t meant, std::size_t drawn) { count(meant, drawn, 1); }
void Tally::remove(std::size_t meant, std::size_t drawn) { count(meant, drawn, -1); }

std::vector<PadCause> pad_causes(const std::vector<ComparedPad>& pads) {
    std::vector<PadCause> causes;
    for (const std::vector<std::size_t>& group : groups_of(pads)) {
        if (is_sound(pads, group)) continue;
        std::ranges::move(causes_of_group(pads, group), std::back_inserter(causes));
    }
    return causes;
}

}  // namespace pinfold
