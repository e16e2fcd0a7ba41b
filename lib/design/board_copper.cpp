#include "design/board_copper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

namespace pinfold {

BoardCopper::BoardCopper(Board& board) : board_(board) {
    std::size_t count = 0;
    for (const Port& port : board.ports) {
        first_.push_back(count);
        count += port.contacts.size();
    }
    parent_.resize(count);
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
}

std::size_t BoardCopper::root(std::size_t piece) {
    while (parent_[piece] != piece) piece = parent_[piece] = parent_[parent_[piece]];
    return piece;
}

NamedCopper& BoardCopper::named(const CopperName& name, const Net& net) {
    const auto [found, is_new] = names_.try_emplace(name);
    if (is_new) {
        found->second = {parent_.size(), net};
        parent_.push_back(parent_.size());
    }
    return found->second;
}

NamedCopper* BoardCopper::find(const CopperName& name) {
    const auto found = names_.find(name);
    return found == names_.end() ? nullptr : &found->second;
}

void BoardCopper::wire(std::size_t place, const NamedCopper& copper) {
    join(copper.piece, place);
    wired_.push_back(place);
}

void BoardCopper::wire(std::size_t place, std::size_t other) {
    join(other, place);
    wired_.push_back(other);
    wired_.push_back(place);
}

std::vector<const NamedCopper*> BoardCopper::alone() {
    std::map<std::size_t, std::set<std::size_t>> places;
    for (const std::size_t place : wired_) places[root(place)].insert(place);
    std::vector<const NamedCopper*> found;
    for (const auto& [name, copper] : names_) {
        if (name.kind != CopperNameKind::own || places[root(copper.piece)].size() > 1) continue;
        found.push_back(&copper);
    }
    return found;
}

std::optional<std::size_t> BoardCopper::net_of(const NamedCopper& copper) {
    const auto found = net_of_piece_.find(root(copper.piece));
    return found == net_of_piece_.end() ? std::nullopt : std::optional(found->second);
}

void BoardCopper::make_nets() {
    std::ranges::sort(wired_);
    for (const std::size_t place : wired_) {
        if (net_of_piece_.try_emplace(root(place), board_.nets.size()).second) {
            board_.nets.emplace_back();
        }
    }
    name_nets();
    name_the_rest();
    for (std::size_t p = 0; p < board_.ports.size(); ++p) {
        for (std::size_t i = 0; i < board_.ports[p].contacts.size(); ++i) {
            const auto net = net_of_piece_.find(root(place(p, i)));
            if (net == net_of_piece_.end()) continue;
            PortContact& contact = board_.ports[p].contacts[i];
            contact.net = net->second;
            if (contact.name.empty()) contact.name = board_.nets[net->second].name;
        }
    }
}

void BoardCopper::name_nets() {
    std::set<std::string> taken;
    for (const auto& [name, copper] : names_) {
        const auto place = net_of(copper);
        if (!place || !board_.nets[*place].name.empty()) continue;
        Net& net = board_.nets[*place];
        net = copper.net;
        if (!taken.insert(net.name).second && name.kind == CopperNameKind::table) {
            net.name = fmt::format("{}.{}", board_.ports[name.port].name, net.name);
        }
    }
}

/// Copper that only `port.contact` entries name is called after its first contact.
void BoardCopper::name_the_rest() {
    for (std::size_t p = 0; p < board_.ports.size(); ++p) {
        for (std::size_t i = 0; i < board_.ports[p].contacts.size(); ++i) {
            const auto found = net_of_piece_.find(root(place(p, i)));
            if (found == net_of_piece_.end()) continue;
            Net& net = board_.nets[found->second];
            if (!net.name.empty()) continue;
            const PortContact& contact = board_.ports[p].contacts[i];
            net.name = fmt::format("{}.{}", board_.ports[p].name, contact.label);
            net.at = contact.at;
        }
    }
}

}  // namespace pinfold
