#include "check/mate_map.hpp"

#include <algorithm>

#include "design/wiring.hpp"

namespace pinfold {
namespace {

/// What a net means in an interface: the signal it bears, or the one its name stands for.
std::optional<std::size_t> signal_in(const Net& net, const Interface& interface) {
    if (net.interface == interface.id) return net.signal;
    return interface.find(net.name);
}

/// Whether the port a board offers stands for the same end of a crossing interface as another's:
/// a plug stands for the device it goes into, a receptacle for the one that plugs into it.
bool stands_for_own_end(const Design& design, const Net& net, std::size_t board) {
    for (const Port& port : design.boards[board].ports) {
        if (port.interface == net.interface && !port.ribbon) return port.gender == Gender::plug;
    }
    return true;
}

std::string name_at(const Design& design, const ContactRef& contact) {
    const Net* net = net_at(design, contact);
    return net ? net->name : std::string{};
}

/// The map for one order.
std::vector<MateContact> map_of(const Design& design, PortRef a, PortRef b, Order order) {
    const int conductors = design.ribbons.front().conductors;
    const std::size_t contacts_a = design.port(a).contacts.size();
    const std::size_t contacts_b = design.port(b).contacts.size();
    std::vector<MateContact> map;
    for (int n = 1; n <= conductors; ++n) {
        const ConductorNumber conductor(n);
        const ContactRef here{a, contact_at_a(conductor).index()};
        const ContactRef there{b, contact_at_b(conductor, conductors, order).index()};
        if (here.contact >= contacts_a || there.contact >= contacts_b) continue;
        map.push_back({here, conductor, there, name_at(design, here), name_at(design, there),
                       means_same(design, here, there)});
    }
    const auto beyond = static_cast<std::size_t>(conductors);
    for (std::size_t i = beyond; i < contacts_a; ++i) {
        const ContactRef here{a, i};
        map.push_back({here, {}, {}, name_at(design, here), {}, !net_at(design, here)});
    }
    for (std::size_t i = beyond; i < contacts_b; ++i) {
        const ContactRef there{b, i};
        map.push_back({{}, {}, there, {}, name_at(design, there), !net_at(design, there)});
    }
    return map;
}

}  // namespace

const Net* net_at(const Design& design, const ContactRef& contact) {
    const std::optional<std::size_t> net = design.contact(contact).net;
    return net ? &design.boards[contact.port.board].nets[*net] : nullptr;
}

bool means_same(const Design& design, const ContactRef& a, const ContactRef& b) {
    const Net* one = net_at(design, a);
    const Net* other = net_at(design, b);
    if (!one || !other) return !one && !other;
    if (one->ground || other->ground) return one->ground && other->ground;
    const std::string& id = one->interface.empty() ? other->interface : one->interface;
    const auto interface = design.interfaces.find(id);
    if (id.empty() || interface == design.interfaces.end()) {
        return plain_name(one->name) == plain_name(other->name);
    }
    const auto signal = signal_in(*one, interface->second);
    const auto met = signal_in(*other, interface->second);
    if (!signal || !met) return plain_name(one->name) == plain_name(other->name);
    const bool crossed = interface->second.crosses() &&
                         stands_for_own_end(design, *one, a.port.board) ==
                             stands_for_own_end(design, *other, b.port.board) &&
                         !one->interface.empty() && !other->interface.empty();
    return (crossed ? interface->second.counterpart[*signal] : *signal) == *met;
}

std::size_t differing(const std::vector<MateContact>& map) {
    return static_cast<std::size_t>(std::ranges::count(map, false, &MateContact::same));
}

std::pair<PortRef, PortRef> mated_ports(const Design& design) {
    const RibbonEnds ends = ribbon_ends(design).front();
    return {design.seats[*ends.a].port, design.seats[*ends.b].port};
}

Mating mating_of(const Design& design) {
    const auto [a, b] = mated_ports(design);
    Mating mating;
    const auto seating = seating_of(design, 0, ribbon_ends(design).front());
    if (!seating) return mating;
    mating.touch_a = seating->touch_a;
    mating.touch_b = seating->touch_b;
    mating.order = seating->order;
    if (mating.order == Order::either) {
        const auto straight = map_of(design, a, b, Order::straight);
        const auto mirrored = map_of(design, a, b, Order::mirrored);
        mating.contacts = differing(mirrored) < differing(straight) ? mirrored : straight;
    } else {
        mating.contacts = map_of(design, a, b, mating.order);
    }
    const bool same = differing(mating.contacts) == 0;
    mating.mates = mating.touch_a && mating.touch_b && mating.order != Order::either && same;
    return mating;
}

}  // namespace pinfold
