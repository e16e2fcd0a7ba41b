#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "bringup/fault_desk.hpp"
#include "check/edits.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_lanes = 12;  ///< of one port; more would be told by the pair

using Exchange = std::vector<std::pair<ContactRef, ContactRef>>;

template <class Think>
void for_board_ports(const Design& design, const Think& think) {
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (design.boards[b].is_device) continue;
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) think(PortRef{b, p});
    }
}

/// The order of a port whose two rows have been exchanged; empty if it has no two rows.
std::vector<std::size_t> rows_exchanged(const Design& design, PortRef ref) {
    const Port& port = design.port(ref);
    const auto connector = design.connectors.find(port.connector);
    if (connector != design.connectors.end() && connector->second.flippable) {
        std::vector<std::size_t> order;
        for (const PortContact& contact : port.contacts) {
            const auto other =
                std::ranges::find(port.contacts, flipped_label(contact.label), &PortContact::label);
            order.push_back(static_cast<std::size_t>(other - port.contacts.begin()));
        }
        return order;
    }
    const bool faced = connector != design.connectors.end() && connector->second.face &&
                       connector->second.face->rows.size() == 2;
    const bool header =
        port.ribbon && design.receptacle_types.at(port.ribbon->receptacle).rows == 2;
    if (!faced && !header) return {};
    return rows_exchanged_order(port.contacts.size());
}

void add_order(FaultDesk& desk, PortRef port, const std::vector<std::size_t>& order, Fault fault) {
    Exchange exchange;
    const std::size_t count = desk.design.port(port).contacts.size();
    for (std::size_t i = 0; i < order.size(); ++i) {
        // A contact without a partner, and one without metal, stays as it is.
        if (order[i] < count) exchange.push_back({{port, i}, {port, order[i]}});
    }
    fault.change = desk.rewired(exchange);
    desk.faults.push_back(std::move(fault));
}

/// The contacts of a port that bear each half of a pair, the first with the first.
struct PairContacts {
    std::vector<ContactRef> plus, minus;
};
using PairKey = std::pair<std::string, std::size_t>;  ///< an interface's id and a pair in it

template <class ContactAt>
std::map<PairKey, PairContacts> pairs_in(const Design& design, std::size_t count,
                                         const ContactAt& contact_at) {
    std::map<PairKey, PairContacts> pairs;
    for (std::size_t i = 0; i < count; ++i) {
        const std::optional<ContactRef> contact = contact_at(i);
        const auto bearing = contact ? bearing_of(design, *contact) : std::nullopt;
        if (!bearing) continue;
        const Interface& interface = design.interfaces.at(bearing->interface);
        const Signal& signal = interface.signals[bearing->signal];
        if (signal.role != Role::pair_half) continue;
        PairContacts& halves = pairs[{bearing->interface, *signal.pair}];
        const bool plus = interface.pairs[*signal.pair].plus == bearing->signal;
        (plus ? halves.plus : halves.minus).push_back(*contact);
    }
    std::erase_if(pairs, [](const auto& pair) {
        return pair.second.plus.size() != pair.second.minus.size();
    });
    return pairs;
}

void exchange(const std::vector<ContactRef>& one, const std::vector<ContactRef>& other,
              Exchange& exchanged) {
    for (std::size_t i = 0; i < one.size(); ++i) {
        exchanged.emplace_back(one[i], other[i]);
        exchanged.emplace_back(other[i], one[i]);
    }
}

std::string name_of(const Design& design, const PairKey& key) {
    return design.interfaces.at(key.first).pairs[key.second].name;
}

void think_of_port(FaultDesk& desk, PortRef port) {
    const Design& design = desk.design;
    const std::string place = name_of(design, port);
    const auto pairs = pairs_in(design, design.port(port).contacts.size(), [&](std::size_t i) {
        return std::optional(ContactRef{port, i});
    });
    for (auto one = pairs.begin(); one != pairs.end(); ++one) {
        Exchange halves;
        exchange(one->second.plus, one->second.minus, halves);
        const std::string pair = name_of(design, one->first);
        desk.faults.push_back(
            {FaultKind::swap, "pair-swapped", place,
             fmt::format("the halves of pair {} are exchanged at {}", pair, place),
             fmt::format("hold the copper or the wires at {} against the wiring table and exchange "
                         "{}+ and {}-",
                         place, pair, pair),
             desk.rewired(halves)});
        if (pairs.size() > most_lanes) continue;
        for (auto other = std::next(one); other != pairs.end(); ++other) {
            if (other->first.first != one->first.first) continue;
            if (other->second.plus.size() != one->second.plus.size()) continue;
            Exchange lanes;
            exchange(one->second.plus, other->second.plus, lanes);
            exchange(one->second.minus, other->second.minus, lanes);
            const std::string second = name_of(design, other->first);
            desk.faults.push_back(
                {FaultKind::lanes, "lanes-exchanged", place,
                 fmt::format("pairs {} and {} are exchanged at {}", pair, second, place),
                 fmt::format("hold the copper or the wires at {} against the wiring table and "
                             "exchange {} and {}",
                             place, pair, second),
                 desk.rewired(lanes)});
        }
    }
}

}  // namespace

void think_of_row_faults(FaultDesk& desk) {
    for_board_ports(desk.design, [&](PortRef port) {
        const std::string place = name_of(desk.design, port);
        const std::vector<std::size_t> rows = rows_exchanged(desk.design, port);
        if (!rows.empty()) {
            add_order(desk, port, rows,
                      {FaultKind::rows,
                       "rows-exchanged",
                       place,
                       fmt::format("the rows of {} are exchanged: contact 1 is where contact 2 "
                                   "belongs, or row A where row B does",
                                   place),
                       fmt::format("look which way up {} is soldered or plugged; compare contact 1 "
                                   "with its drawing, seen from the same side",
                                   place),
                       {}});
        }
        const Port& there = desk.design.port(port);
        if (there.connector.empty() || there.ribbon) return;
        add_order(
            desk, port, reversed_order(there.contacts.size()),
            {FaultKind::rows,
             "connector-mirrored",
             place,
             fmt::format("{} is mirrored: its first contact is where its last belongs", place),
             fmt::format("compare contact 1 of {} with its drawing; a footprint seen from the "
                         "wrong side, or a part on the wrong face of the board, does this",
                         place),
             {}});
    });
}

void think_of_pair_faults(FaultDesk& desk) {
    for_board_ports(desk.design, [&](PortRef port) { think_of_port(desk, port); });
}

}  // namespace pinfold
