#include "bringup/sites.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace pinfold {
namespace {

/// The ports of devices that come apart from the assembly: those with a board's plug in them.
std::set<PortRef> unplugged_ports(const Design& design) {
    const auto is_device = [&](PortRef port) { return design.boards[port.board].is_device; };
    std::set<PortRef> ports;
    for (const PortJoin& join : design.joins) {
        if (is_device(join.a) && !is_device(join.b)) ports.insert(join.a);
        if (is_device(join.b) && !is_device(join.a)) ports.insert(join.b);
    }
    return ports;
}

/// The ports of devices that something of the assembly goes right into.
std::set<PortRef> attached_ports(const Design& design) {
    std::set<PortRef> ports;
    for (const Seat& seat : design.seats) ports.insert(seat.port);
    for (const Lead& lead : design.leads) ports.insert({lead.from.port, lead.to.port});
    for (const PortJoin& join : design.joins) ports.insert({join.a, join.b});
    return ports;
}

void add_row(const Port& port, const std::vector<std::string>& labels,
             std::set<std::pair<std::size_t, std::size_t>>& pairs) {
    const auto place_of = [&](const std::string& label) {
        const auto found = std::ranges::find(port.contacts, label, &PortContact::label);
        return static_cast<std::size_t>(found - port.contacts.begin());
    };
    for (std::size_t i = 0; i + 1 < labels.size(); ++i) {
        const std::size_t one = place_of(labels[i]);
        const std::size_t other = place_of(labels[i + 1]);
        if (std::max(one, other) < port.contacts.size()) pairs.insert(std::minmax(one, other));
    }
}

}  // namespace

Sites::Sites(const Design& design, const Wiring& wiring) : by_point_(wiring.points(), 0) {
    const std::set<PortRef> unplugged = unplugged_ports(design);
    const std::set<PortRef> attached = attached_ports(design);
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) {
            const PortRef port{b, p};
            const bool within = !design.boards[b].is_device || attached.contains(port);
            if (within && !unplugged.contains(port)) add_port(design, wiring, port);
        }
    }
    for (const Link& link : wiring.links()) {
        if (link.kind != LinkKind::join) continue;
        std::size_t& one = by_point_[link.one];
        std::size_t& other = by_point_[link.other];
        if (one == 0) one = other;
        if (other == 0) other = one;
    }
}

void Sites::add_port(const Design& design, const Wiring& wiring, PortRef port) {
    const std::vector<PortContact>& contacts = design.port(port).contacts;
    for (std::size_t i = 0; i < contacts.size(); ++i) {
        if (contacts[i].absent) continue;
        const ContactRef contact{port, i};
        sites_.push_back({wiring.point_of(contact), contact});
        by_point_[sites_.back().point] = sites_.size();
    }
}

std::vector<Point> Sites::points() const {
    std::vector<Point> points;
    for (const Site& site : sites_) points.push_back(site.point);
    return points;
}

std::optional<std::size_t> Sites::at(Point point) const {
    if (by_point_[point] == 0) return std::nullopt;
    return by_point_[point] - 1;
}

std::vector<std::pair<std::size_t, std::size_t>> neighbours_in(const Design& design, PortRef ref) {
    const Port& port = design.port(ref);
    const std::size_t count = port.contacts.size();
    std::set<std::pair<std::size_t, std::size_t>> pairs;
    for (std::size_t i = 0; i + 1 < count; ++i) pairs.insert({i, i + 1});
    if (port.ribbon && design.receptacle_types.at(port.ribbon->receptacle).rows == 2) {
        for (std::size_t i = 0; i + 2 < count; ++i) pairs.insert({i, i + 2});
    }
    const auto connector = design.connectors.find(port.connector);
    if (connector != design.connectors.end() && connector->second.face) {
        for (const auto& row : connector->second.face->rows) add_row(port, row, pairs);
    }
    std::erase_if(pairs, [&](const auto& pair) {
        return port.contacts[pair.first].absent || port.contacts[pair.second].absent;
    });
    return {pairs.begin(), pairs.end()};
}

Pieces::Pieces(const Design& design, const Wiring& wiring)
    : standings_(wiring.pieces(), Standing::idle), live_(wiring.pieces(), 0) {
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) {
            for (std::size_t i = 0; i < design.boards[b].ports[p].contacts.size(); ++i) {
                const ContactRef contact{{b, p}, i};
                const std::uint32_t piece = wiring.piece_of(wiring.point_of(contact));
                note(piece, standing_of(design, contact));
                const auto net = design.contact(contact).net;
                if (!net) continue;
                const bool ground = design.boards[b].nets[*net].ground;
                note(piece, ground ? Standing::ground : Standing::signal);
            }
        }
    }
}

/// Ground counts before a supply, a supply before a signal.
void Pieces::note(std::uint32_t piece, Standing standing) {
    if (standing == Standing::idle) return;
    live_[piece] = 1;
    const auto weight = [](Standing any) {
        return any == Standing::ground   ? 3
               : any == Standing::supply ? 2
               : any == Standing::signal ? 1
                                         : 0;
    };
    if (weight(standing) > weight(standings_[piece])) standings_[piece] = standing;
}

std::string spoken(const Design& design, const ContactRef& contact) {
    const std::string& name = design.contact(contact).name;
    if (name.empty()) return name_of(design, contact);
    return fmt::format("{} ({})", name_of(design, contact), name);
}

}  // namespace pinfold
