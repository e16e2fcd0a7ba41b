#include "design/design.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/quantity.hpp"

namespace pinfold {
namespace {

/// The mouth a seat's ribbon end meets, with the row the user chose.
Mouth mouth_of(const Design& design, const Seat& seat) {
    Mouth mouth = design.port(seat.port).ribbon->mouth;
    if (seat.touches) mouth.side = *seat.touches;
    return mouth;
}

}  // namespace

std::optional<std::size_t> Board::find_port(std::string_view text) const {
    const auto found = std::ranges::find(ports, text, &Port::name);
    if (found == ports.end()) return std::nullopt;
    return static_cast<std::size_t>(found - ports.begin());
}

std::optional<std::size_t> find_contact(const Port& port, const Interface* interface,
                                        std::string_view text) {
    const auto is_it = [&](std::size_t i) {
        return i < port.contacts.size() && port.contacts[i].label == text;
    };
    const std::size_t guess = static_cast<std::size_t>(parse_whole(text).value_or(0)) - 1;
    if (is_it(guess)) return guess;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        if (is_it(i)) return i;
    }
    const std::string plain = plain_name(text);
    const std::optional<std::size_t> signal = interface ? interface->find(text) : std::nullopt;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        const PortContact& contact = port.contacts[i];
        if (signal && contact.signal == signal) return i;
        if (!contact.name.empty() && plain_name(contact.name) == plain) return i;
    }
    return std::nullopt;
}

const Interface* Design::interface_of(const Port& port) const {
    const auto found = interfaces.find(port.interface);
    return found == interfaces.end() ? nullptr : &found->second;
}

const Signal* Design::signal_of(const ContactRef& ref) const {
    const Port& at = port(ref.port);
    const Interface* interface = interface_of(at);
    const std::optional<std::size_t> signal = at.contacts[ref.contact].signal;
    return interface && signal ? &interface->signals[*signal] : nullptr;
}

std::string name_of(const Design& design, PortRef ref) {
    return fmt::format("{}.{}", design.boards[ref.board].name, design.port(ref).name);
}

std::string name_of(const Design& design, const ContactRef& ref) {
    return fmt::format("{}.{}", name_of(design, ref.port), design.contact(ref).label);
}

std::string_view name_of(End end) { return end == End::a ? "a" : "b"; }

std::vector<RibbonEnds> ribbon_ends(const Design& design) {
    std::vector<RibbonEnds> ends(design.ribbons.size());
    for (std::size_t i = 0; i < design.seats.size(); ++i) {
        const Seat& seat = design.seats[i];
        (seat.end == End::a ? ends[seat.ribbon].a : ends[seat.ribbon].b) = i;
    }
    return ends;
}

std::optional<Seating> seating_of(const Design& design, std::size_t ribbon,
                                  const RibbonEnds& ends) {
    if (!ends.a || !ends.b) return std::nullopt;
    const std::optional<RibbonMouth>& a = design.port(design.seats[*ends.a].port).ribbon;
    const std::optional<RibbonMouth>& b = design.port(design.seats[*ends.b].port).ribbon;
    const Ribbon& cut = design.ribbons[ribbon];
    const RibbonKind kind = design.ribbon_types.at(cut.type).kind;
    if (!a || !b || design.receptacle_types.at(a->receptacle).takes != kind ||
        design.receptacle_types.at(b->receptacle).takes != kind) {
        return std::nullopt;
    }
    if (kind == RibbonKind::round) {
        const Order order = cut.turned_socket ? Order::mirrored : Order::straight;
        return Seating{true, true, order, ContactSide::both, ContactSide::both};
    }
    return seat_ribbon(mouth_of(design, design.seats[*ends.a]),
                       mouth_of(design, design.seats[*ends.b]), cut.copper, cut.lay);
}

}  // namespace pinfold
