#include "check/pad_table.hpp"

#include <algorithm>

namespace pinfold {

PadTable::PadTable(const Board& board, const Netlist& meant, const Netlist& drawn,
                   const std::vector<std::size_t>& net_of_drawn)
    : board_(board), meant_(meant), drawn_(drawn), net_of_drawn_(net_of_drawn) {
    rank_contacts();
    take_pads();
}

/// Contacts are counted by port, then as the board file lists them.
void PadTable::rank_contacts() {
    std::size_t count = 0;
    for (const Port& port : board_.ports) count += port.contacts.size();
    place_.reserve(count);
    std::size_t rank = 0;
    for (std::size_t p = 0; p < board_.ports.size(); ++p) {
        for (const PortContact& contact : board_.ports[p].contacts) {
            place_.emplace(Key{p, contact.label}, rank++);
        }
    }
}

/// The pads in order; from here on each label's place is that of its pad.
void PadTable::take_pads() {
    std::unordered_map<std::string_view, std::size_t> port_named, port_of;
    for (std::size_t p = 0; p < board_.ports.size(); ++p) port_named[board_.ports[p].name] = p;
    for (const Netlist::Component& part : meant_.components) {
        port_of[part.reference] = port_named.at(part.port);
    }
    std::vector<std::pair<std::size_t, ComparedPad>> ranked;
    for (std::size_t net = 0; net < meant_.nets.size(); ++net) {
        for (const Netlist::Node& node : meant_.nets[net].nodes) {
            const std::size_t port = port_of.at(node.reference);
            const auto contact = place_.find(Key{port, node.pad});
            const bool is_shield = contact == place_.end();
            ranked.emplace_back(is_shield ? no_net : contact->second,
                                ComparedPad{port, is_shield, net, no_net, &node, nullptr});
        }
    }
    std::ranges::stable_sort(ranked, {},
                             [](const auto& one) { return std::pair(one.second.port, one.first); });
    for (auto& [key, place] : place_) place = no_net;
    for (const auto& [rank, pad] : ranked) {
        place_.insert_or_assign(Key{pad.port, pad.in_board->pad}, pads_.size());
        pads_.push_back(pad);
    }
}

std::size_t PadTable::find(std::size_t port, std::string_view label) const {
    const auto place = place_.find(Key{port, label});
    return place == place_.end() ? no_net : place->second;
}

LaidPads PadTable::lay(const std::vector<PortMatch>& ports) const {
    std::unordered_map<std::string_view, std::size_t> port_of;
    for (const PortMatch& match : ports) {
        if (!match.reference.empty()) port_of.emplace(match.reference, match.port);
    }
    LaidPads laid{pads_, {}, {}};
    for (std::size_t n = 0; n < drawn_.nets.size(); ++n) {
        for (const Netlist::Node& node : drawn_.nets[n].nodes) {
            const auto port = port_of.find(node.reference);
            if (port == port_of.end()) continue;
            const std::size_t place = find(port->second, node.pad);
            if (place == no_net) {
                laid.extra.push_back({&node, port->second, net_of_drawn_[n]});
            } else {
                laid.pads[place].drawn = net_of_drawn_[n];
                laid.pads[place].in_netlist = &node;
            }
        }
    }
    for (std::size_t p = 0; p < laid.pads.size(); ++p) {
        const ComparedPad& pad = laid.pads[p];
        const bool hangs_loose = meant_.nets[pad.meant].nodes.size() == 1;
        const bool is_there = !ports[pad.port].reference.empty();
        if (is_there && pad.drawn == no_net && !hangs_loose) laid.missing[pad.port].push_back(p);
    }
    return laid;
}

}  // namespace pinfold
