#include "check/supply_system.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "check/supply_trace.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

constexpr std::uint32_t no_system = std::numeric_limits<std::uint32_t>::max();

/// What puts a contact on a plane with others: nothing, its being ground, or its supply.
struct PlaneMark {
    bool ground = false;
    std::optional<std::size_t> supply;  ///< a signal, on the contact's port
    friend bool operator==(const PlaneMark&, const PlaneMark&) = default;
};

std::optional<PlaneMark> plane_of(const Design& design, const ContactRef& contact) {
    const Signal* signal = design.signal_of(contact);
    if (!signal) return std::nullopt;
    if (is_ground(signal->role)) return PlaneMark{true, {}};
    if (signal->role != Role::supply) return std::nullopt;
    return PlaneMark{false, design.contact(contact).signal};
}

}  // namespace

SupplySystems::SupplySystems(const Design& design, const Wiring& wiring,
                             const std::vector<Point>& points)
    : design_(design),
      wiring_(wiring),
      system_of_piece_(wiring.pieces(), no_system),
      node_(wiring.points()) {
    std::iota(node_.begin(), node_.end(), Point{0});
    for (const Point point : points) {
        const std::uint32_t piece = wiring.piece_of(point);
        if (system_of_piece_[piece] == no_system) gather(piece);
    }
    put_in_order();
    gather_links();
}

void SupplySystems::gather(std::uint32_t first) {
    all_.emplace_back();
    add_piece(first);
    for (std::size_t i = 0; i < all_.back().pieces.size(); ++i) {
        for (const ContactRef& contact : wiring_.device_contacts(all_.back().pieces[i])) {
            join_plane(contact);
        }
    }
}

void SupplySystems::add_piece(std::uint32_t piece) {
    if (system_of_piece_[piece] != no_system) return;
    system_of_piece_[piece] = static_cast<std::uint32_t>(all_.size() - 1);
    all_.back().pieces.push_back(piece);
}

/// Joins a device's contact with all on its plane, and takes in the pieces they belong to.
void SupplySystems::join_plane(const ContactRef& contact) {
    const Board& device = design_.boards[contact.port.board];
    const Point node = wiring_.point_of(contact);
    if (!device.is_device || node_[node] != node) return;
    const std::optional<PlaneMark> plane = plane_of(design_, contact);
    if (!plane) return;
    for (std::size_t p = 0; p < device.ports.size(); ++p) {
        if (!plane->ground && p != contact.port.port) continue;
        for (std::size_t i = 0; i < device.ports[p].contacts.size(); ++i) {
            const ContactRef other{{contact.port.board, p}, i};
            if (plane_of(design_, other) != plane) continue;
            node_[wiring_.point_of(other)] = node;
            add_piece(wiring_.piece_of(wiring_.point_of(other)));
        }
    }
}

void SupplySystems::put_in_order() {
    for (SupplySystem& system : all_) std::ranges::sort(system.pieces);
    std::ranges::sort(all_, {}, [](const SupplySystem& system) { return system.pieces.front(); });
    for (std::uint32_t s = 0; s < all_.size(); ++s) {
        for (const std::uint32_t piece : all_[s].pieces) system_of_piece_[piece] = s;
    }
}

void SupplySystems::gather_links() {
    const std::vector<Link>& links = wiring_.links();
    std::map<std::pair<Point, PortRef>, Point> first;
    for (std::size_t i = 0; i < links.size(); ++i) {
        const std::uint32_t system = system_of_piece_[wiring_.piece_of(links[i].one)];
        if (system == no_system) continue;
        if (links[i].kind == LinkKind::copper) {
            gather_copper(i, first);
        } else {
            all_[system].links.push_back(i);
        }
    }
}

/// Joins a contact with its net; or, where a trace lies between, with the first contact of its port
/// on that net, whose link stands for the port's end of the trace.
void SupplySystems::gather_copper(std::size_t place,
                                  std::map<std::pair<Point, PortRef>, Point>& first) {
    const Link& link = wiring_.links()[place];
    if (!supply_trace_of(design_, wiring_, link)) {
        node_[link.one] = link.other;
        return;
    }
    const PortRef port = wiring_.contact_at(link.one)->port;
    const auto [at, is_new] = first.try_emplace({link.other, port}, link.one);
    node_[link.one] = at->second;
    if (is_new) all_[system_of_piece_[wiring_.piece_of(link.one)]].links.push_back(place);
}

}  // namespace pinfold
