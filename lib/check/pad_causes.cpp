#include "check/pad_causes.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "base/groups.hpp"
#include "check/pad_moves.hpp"

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// Nets of both sides that hang together through pads: groups of pads, each in order.
std::vector<Places> groups_of(const std::vector<ComparedPad>& pads) {
    Groups joined(pads.size());
    for (auto net : {&ComparedPad::meant, &ComparedPad::drawn}) {
        std::vector<std::size_t> first(nets_of(pads, net), no_net);
        for (std::size_t p = 0; p < pads.size(); ++p) {
            if (pads[p].drawn == no_net) continue;
            if (first[pads[p].*net] == no_net) first[pads[p].*net] = p;
            joined.join(p, first[pads[p].*net]);
        }
    }
    std::vector<std::size_t> place(pads.size(), no_net);
    std::vector<Places> groups;
    for (std::size_t p = 0; p < pads.size(); ++p) {
        if (pads[p].drawn == no_net) continue;
        std::size_t& group = place[joined.first_of(p)];
        if (group == no_net) {
            group = groups.size();
            groups.emplace_back();
        }
        groups[group].push_back(p);
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
        : pads_(pads) {
        for (const std::size_t p : group) on_[{pads[p].meant, pads[p].drawn}].push_back(p);
        settle(culprit);
        settle_leftovers();
        sort_out();
    }

    std::vector<PadCause> take() { return std::move(causes_); }

private:
    /// Which drawn net stands for which net of the design: the one most of its pads are on, pads
    /// of the culprit counting least; of equals the one with the earliest pad, whatever the order
    /// of the netlist.
    void settle(std::size_t culprit) {
        constexpr long weight = 1000;
        std::vector<std::tuple<long, std::size_t, std::size_t, NetStep>> sorted;
        for (const auto& [nets, pads] : on_) {
            long count = 0;
            for (const std::size_t p : pads) count += pads_[p].port == culprit ? 1 : weight;
            sorted.emplace_back(-count, nets.first, pads.front(), nets);
        }
        std::ranges::sort(sorted);
        for (const auto& [count, meant, first, nets] : sorted) {
            if (home_.contains(nets.first) || owner_.contains(nets.second)) continue;
            settle(nets.first, nets.second);
        }
    }

    void settle(std::size_t meant, std::size_t drawn) {
        home_[meant] = drawn;
        owner_[drawn] = meant;
    }

    /// A net without a home and a drawn net without an owner, each lying in the other's partner,
    /// belong together: pads were exchanged with contacts that are alone on their net.
    void settle_leftovers() {
        std::map<std::size_t, Places> homeless, ownerless;
        for (const auto& [nets, pads] : on_) {
            if (!home_.contains(nets.first)) append(homeless[nets.first], pads);
            if (!owner_.contains(nets.second)) append(ownerless[nets.second], pads);
        }
        for (auto& [meant, pads] : homeless) std::ranges::sort(pads);
        for (auto& [drawn, pads] : ownerless) std::ranges::sort(pads);
        std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>> alike;
        for (const auto& [drawn, pads] : ownerless) {
            alike[{pads_[pads[0]].meant, pads.size()}].push_back(drawn);
        }
        for (auto& [kind, drawn] : alike) std::ranges::reverse(drawn);  // the first is taken first
        for (const auto& [meant, strays] : homeless) {
            const auto owner = owner_.find(pads_[strays[0]].drawn);
            if (owner == owner_.end()) continue;
            const auto fitting = alike.find({owner->second, strays.size()});
            if (fitting == alike.end() || fitting->second.empty()) continue;
            settle(meant, fitting->second.back());
            fitting->second.pop_back();
        }
    }

    static void append(Places& list, const Places& more) {
        list.insert(list.end(), more.begin(), more.end());
    }

    void sort_out() {
        PadMoves moved;
        std::map<std::size_t, Places> open, joined;  // by the net of the design
        for (const auto& [nets, pads] : on_) {
            const auto home = home_.find(nets.first);
            const auto owner = owner_.find(nets.second);
            if (home != home_.end() && home->second == nets.second) continue;
            if (home == home_.end()) {
                append(joined[nets.first], pads);
            } else if (owner == owner_.end()) {
                append(open[nets.first], pads);
            } else {
                append(moved[{nets.first, owner->second}], pads);
            }
        }
        append_exchanges(moved);
        for (const auto& [nets, pads] : moved) {
            for (const std::size_t p : pads) {
                causes_.push_back({PadCause::Kind::misplaced, {p}, one_at_home_on(p)});
            }
        }
        for (auto& [net, pads] : open) {
            std::ranges::sort(pads);
            causes_.push_back({PadCause::Kind::open, pads, on_[{net, home_.at(net)}]});
        }
        for (auto& [net, pads] : joined) {
            std::ranges::sort(pads);
            causes_.push_back({PadCause::Kind::shorted, pads, one_at_home_on(pads[0])});
        }
    }

    void append_exchanges(PadMoves& moved) {
        std::vector<Places> exchanges = take_pairs(moved, pads_);
        for (Places& ring : take_rings(moved)) exchanges.push_back(std::move(ring));
        for (Places& pads : exchanges) {
            causes_.push_back({PadCause::Kind::exchanged, std::move(pads), {}});
        }
    }

    /// A pad that belongs on the drawn net that `pad` lies on.
    Places one_at_home_on(std::size_t pad) const {
        const auto owner = owner_.find(pads_[pad].drawn);
        if (owner == owner_.end()) return {};
        const auto others = on_.find({owner->second, pads_[pad].drawn});
        return others == on_.end() ? Places{} : Places{others->second[0]};
    }

    const std::vector<ComparedPad>& pads_;
    std::map<NetStep, Places> on_;  ///< by the net meant and the net drawn
    std::map<std::size_t, std::size_t> home_, owner_;
    std::vector<PadCause> causes_;
};

std::vector<PadCause> causes_of_group(const std::vector<ComparedPad>& pads, const Places& group) {
    constexpr std::size_t most_culprits = 8;
    std::set<std::size_t> ports;
    for (const std::size_t p : group) ports.insert(pads[p].port);
    std::vector<PadCause> best = Group(pads, group, no_net).take();
    std::size_t tried = 0;
    for (const std::size_t port : ports) {
        if (best.size() < 2 || ++tried > most_culprits) break;
        std::vector<PadCause> other = Group(pads, group, port).take();
        if (other.size() < best.size()) best = std::move(other);
    }
    return best;
}

}  // namespace

std::vector<PadCause> pad_causes(const std::vector<ComparedPad>& pads) {
    std::vector<PadCause> causes;
    for (const std::vector<std::size_t>& group : groups_of(pads)) {
        if (is_sound(pads, group)) continue;
        std::ranges::move(causes_of_group(pads, group), std::back_inserter(causes));
    }
    return causes;
}

}  // namespace pinfold
