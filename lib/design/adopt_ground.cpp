#include "design/adopt_ground.hpp"

#include "design/adopt_doubts.hpp"
#include "design/adopt_names.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

using Votes = std::map<std::size_t, std::size_t>;

std::size_t weight_of(const AdoptedPort& port, const AdoptedContact& contact,
                      const Netlist::Net& net) {
    constexpr std::size_t more_than_shields = 1000;
    const bool is_shield = port.interface->signals[*contact.signal].role != Role::ground;
    return is_shield || net.nodes.size() < 2 ? 1 : more_than_shields;
}

void vote_by_contact(Votes& votes, const AdoptedPort& port, const AdoptedPads& pads,
                     const Netlist& drawn) {
    for (const AdoptedContact& contact : port.contacts) {
        const auto pad = pads.find(contact.label);
        if (!bears_ground(port, contact) || pad == pads.end()) continue;
        const std::size_t net = pad->second.net;
        votes[net] += weight_of(port, contact, drawn.nets[net]);
    }
}

void vote_by_name(Votes& votes, const AdoptedPads& pads, const Netlist& drawn,
                  const Interface& plain) {
    constexpr std::size_t more_than_contacts = 10'000'000;
    for (const auto& [label, pad] : pads) {
        const auto signal = plain.find(meant_name(drawn.nets[pad.net].name));
        if (!signal || !is_ground(plain.signals[*signal].role)) continue;
        votes[pad.net] += more_than_contacts;
    }
}

}  // namespace

std::size_t drawn_ground(const Adoption& adoption, const std::vector<AdoptedPads>& pads,
                         const Netlist& drawn, Library& library) {
    const Interface& plain = library.interface("plain", {});
    Votes votes;
    for (std::size_t p = 0; p < pads.size(); ++p) {
        vote_by_contact(votes, adoption.ports[p], pads[p], drawn);
        vote_by_name(votes, pads[p], drawn, plain);
    }
    std::size_t ground = no_net, most = 0;
    for (const auto& [net, count] : votes) {
        if (count <= most) continue;
        most = count;
        ground = net;
    }
    return ground;
}

}  // namespace pinfold
