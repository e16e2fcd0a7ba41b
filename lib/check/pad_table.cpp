#include "check/pad_table.hpp"

#include <algorithm>
#include <unordered_map>

namespace pinfold {

std::size_t nets_of(const std::vector<ComparedPad>& pads, std::size_t ComparedPad::*side) {
    std::size_t count = 0;
    for (const ComparedPad& pad : pads) {
        if (pad.*side != no_net) count = std::max(count, pad.*side + 1);
    }
    return count;
}

namespace {

std::size_t contacts_of(const Board& board) {
    std::size_t count = 0;
    for (const Port& port : board.ports) count += port.contacts.size();
    return count;
}

}  // namespace

PadTable::PadTable(const Board& board, const Netlist& meant, const Netlist& drawn,
                   const std::vector<std::size_t>& net_of_drawn)
    : board_(board),
      meant_(meant),
      drawn_(drawn),
      net_of_drawn_(net_of_drawn),
      numbers_(contacts_of(board)) {
    number_contacts();
    take_pads();
}

void PadTable::number_contacts() {
    for (std::size_t p = 0; p < board_.ports.size(); ++p) {
        for (const PortContact& contact : board_.ports[p].contacts) numbers_.put(p, contact.label);
    }
}

/// The pads in order: by port, then by number.
void PadTable::take_pads() {
    std::unordered_map<std::string_view, std::size_t> port_named, port_of;
    for (std::size_t p = 0; p < board_.ports.size(); ++p) port_named[board_.ports[p].name] = p;
    for (const Netlist::Component& part : meant_.components) {
        port_of[part.reference] = port_named.at(part.port);
    }
    const std::size_t contacts = numbers_.size();
    std::vector<std::pair<std::size_t, ComparedPad>> numbered;
    for (std::size_t net = 0; net < meant_.nets.size(); ++net) {
        for (const Netlist::Node& node : meant_.nets[net].nodes) {
            const std::size_t port = port_of.at(node.reference);
            const std::size_t number = numbers_.put(port, node.pad);
            numbered.emplace_back(
                number, ComparedPad{port, number >= contacts, net, no_net, &node, nullptr});
        }
    }
    std::ranges::sort(numbered, {},
                      [](const auto& one) { return std::pair(one.second.port, one.first); });
    pad_of_.assign(numbers_.size(), no_net);
    for (const auto& [number, pad] : numbered) {
        pad_of_[number] = pads_.size();
        pads_.push_back(pad);
    }
}

std::size_t PadTable::find(std::size_t port, std::string_view label) const {
    const std::size_t number = numbers_.find(port, label);
    return number == LabelIndex::none ? no_net : pad_of_[number];
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
