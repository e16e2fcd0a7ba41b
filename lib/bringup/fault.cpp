#include "bringup/fault.hpp"

#include <fmt/format.h>

#include "bringup/fault_desk.hpp"

namespace pinfold {

FaultDesk::FaultDesk(const Design& of_design, const Wiring& of_wiring)
    : design(of_design),
      wiring(of_wiring),
      pieces(of_design, of_wiring),
      copper_(of_wiring.points(), 0),
      conductor_(of_wiring.points(), 0),
      on_net_(of_wiring.points(), 0) {
    for (auto& side : seats_) side.resize(design.ribbons.size());
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        for (auto& side : seats_)
            side[r].resize(static_cast<std::size_t>(design.ribbons[r].conductors));
    }
    for (std::uint32_t i = 0; i < wiring.links().size(); ++i) {
        const Link& link = wiring.links()[i];
        if (link.kind == LinkKind::copper) {
            copper_[link.one] = i + 1;
            ++on_net_[link.other];
        } else if (link.kind == LinkKind::conductor) {
            conductor_[link.one] = i + 1;
        } else if (link.kind == LinkKind::seat) {
            const Seat& seat = design.seats[link.place];
            const Point first = wiring.point_of(seat.ribbon, seat.end, ConductorNumber(1));
            seats_[seat.end == End::a ? 0 : 1][seat.ribbon][link.other - first] = i;
        }
    }
}

std::optional<std::uint32_t> FaultDesk::copper_at(const ContactRef& contact) const {
    const std::uint32_t link = copper_[wiring.point_of(contact)];
    return link == 0 ? std::nullopt : std::optional(link - 1);
}

const std::vector<std::optional<std::uint32_t>>& FaultDesk::seats_at(std::size_t ribbon,
                                                                     End end) const {
    return seats_[end == End::a ? 0 : 1][ribbon];
}

std::uint32_t FaultDesk::conductor_at(std::size_t ribbon, ConductorNumber conductor) const {
    return conductor_[wiring.point_of(ribbon, End::a, conductor)] - 1;
}

Change FaultDesk::rewired(const std::vector<std::pair<ContactRef, ContactRef>>& to) const {
    Change change;
    for (const auto& [contact, instead] : to) {
        const auto now = copper_at(contact);
        const auto then = copper_at(instead);
        if (now == then) continue;
        if (now) change.cut.push_back(*now);
        if (then) {
            change.added.emplace_back(wiring.point_of(contact), wiring.links()[*then].other);
        }
    }
    return change;
}

std::string FaultDesk::place_of(std::size_t ribbon, ConductorNumber conductor) const {
    return fmt::format("{}.{}", design.ribbons[ribbon].name, conductor.number());
}

std::string FaultDesk::spoken(std::size_t ribbon, ConductorNumber conductor) const {
    const auto contact = wiring.contact_of(design, ribbon, End::a, conductor);
    const std::string name = contact ? design.contact(*contact).name : std::string{};
    return fmt::format("conductor {} of {}{}", conductor.number(), design.ribbons[ribbon].name,
                       name.empty() ? "" : fmt::format(" ({})", name));
}

bool FaultDesk::both_ends_sit(std::size_t ribbon) const {
    const std::optional<Seating>& seating = wiring.seating_of(ribbon);
    return seating && seating->touch_a && seating->touch_b;
}

std::optional<Bearing> bearing_of(const Design& design, const ContactRef& ref) {
    const PortContact& contact = design.contact(ref);
    if (contact.net) {
        const Net& net = design.boards[ref.port.board].nets[*contact.net];
        if (net.signal) return Bearing{net.interface, *net.signal};
        return std::nullopt;
    }
    if (contact.signal && !design.port(ref.port).interface.empty()) {
        return Bearing{design.port(ref.port).interface, *contact.signal};
    }
    return std::nullopt;
}

std::vector<Fault> plausible_faults(const Design& design, const Wiring& wiring) {
    FaultDesk desk(design, wiring);
    think_of_ribbon_faults(desk);
    think_of_row_faults(desk);
    think_of_pair_faults(desk);
    think_of_opens(desk);
    think_of_bridges(desk);
    think_of_exchanges(desk);
    return std::move(desk.faults);
}

}  // namespace pinfold
