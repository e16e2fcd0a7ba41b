#include "check/occupant.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

Occupant::Kind kind_of(Role role) {
    switch (role) {
        case Role::ground:
        case Role::pair_shield: return Occupant::Kind::ground;
        case Role::supply: return Occupant::Kind::supply;
        case Role::pair_half: return Occupant::Kind::pair_half;
        default: return Occupant::Kind::single;
    }
}

/// What an interface says of one of its signals.
void fill_from_signal(const Interface& interface, std::size_t place, Occupant& occupant) {
    const Signal& signal = interface.signals[place];
    occupant.kind = kind_of(signal.role);
    occupant.name = signal.name;
    occupant.withstands = signal.withstands;
    if (const Supply* window = interface.supply_of(place)) {
        occupant.highest = window->most_at_source;
    }
}

/// What the promise that runs in the conductor says of it.
void fill_from_promise(const Design& design, Occupant& occupant) {
    const Carry& carry = design.carries[occupant.wire->carry];
    const Interface* interface = design.interface_of(design.port(carry.from));
    const Signal& signal = interface->signals[occupant.wire->signal];
    fill_from_signal(*interface, occupant.wire->signal, occupant);
    if (occupant.kind == Occupant::Kind::ground) occupant.name = "GND";
    occupant.clock = signal.clock;
    if (signal.role != Role::pair_half) return;
    const Pair& pair = interface->pairs[*signal.pair];
    occupant.pair = signal.pair;
    occupant.clock = pair.kind == PairKind::clock;
    occupant.fast = pair.kind != PairKind::slow;
}

/// Without a promise, the board's net has the word.
void fill_from_net(const Design& design, const ContactRef& contact, Occupant& occupant) {
    const PortContact& there = design.contact(contact);
    if (there.signal) {
        const Interface* interface = design.interface_of(design.port(contact.port));
        if (interface) fill_from_signal(*interface, *there.signal, occupant);
    } else if (there.net) {
        const Net& net = design.boards[contact.port.board].nets[*there.net];
        const auto interface = design.interfaces.find(net.interface);
        occupant.kind = Occupant::Kind::single;
        if (net.signal && interface != design.interfaces.end()) {
            fill_from_signal(interface->second, *net.signal, occupant);
        }
        if (net.ground) occupant.kind = Occupant::Kind::ground;
        occupant.name = net.name;
    }
}

}  // namespace

std::vector<Occupant> occupants(const Design& design, const Wiring& wiring, std::size_t ribbon) {
    std::vector<Occupant> row;
    for (int n = 1; n <= design.ribbons[ribbon].conductors; ++n) {
        Occupant occupant;
        occupant.conductor = ConductorNumber(n);
        occupant.at = design.ribbons[ribbon].at;
        occupant.piece = wiring.piece_of(wiring.point_of(ribbon, End::a, occupant.conductor));
        occupant.wire = wiring.wire_in(occupant.piece);
        if (occupant.wire) fill_from_promise(design, occupant);
        for (const End end : {End::b, End::a}) {
            const auto contact = wiring.contact_of(design, ribbon, end, occupant.conductor);
            if (!contact) continue;
            const bool says = design.contact(*contact).net.has_value();
            if (says || end == End::a) occupant.at = design.contact(*contact).at;
            if (!occupant.wire) fill_from_net(design, *contact, occupant);
        }
        row.push_back(std::move(occupant));
    }
    return row;
}

std::string name_of(const Design& design, std::size_t ribbon, ConductorNumber conductor) {
    return fmt::format("{}.{}", design.ribbons[ribbon].name, conductor.number());
}

}  // namespace pinfold
