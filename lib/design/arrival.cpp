#include "design/arrival.hpp"

#include <algorithm>

namespace pinfold {
namespace {

std::size_t place_of(Standing standing) { return static_cast<std::size_t>(standing); }

}  // namespace

Arrivals::Arrivals(const Design& design, const Wiring& wiring, std::uint32_t pieces)
    : design_(design), wiring_(wiring), standings_(pieces) {
    for (std::uint32_t piece = 0; piece < pieces; ++piece) {
        for (const ContactRef& contact : wiring.device_contacts(piece)) {
            ++standings_[piece][place_of(standing_of(design, contact))];
        }
    }
}

void Arrivals::arrive(const Promise& promise, Pass& pass) const {
    const Point from = wiring_.point_of(promise.from);
    const std::uint32_t piece = wiring_.piece_of(from);
    const std::vector<ContactRef> own = contacts_at_its_ports(promise, piece);
    bool shorted = meets_stranger(promise, piece, own);
    if (is_ground(promise.role) && !shorted && are_grounds(own)) {
        return arrive_at_ground(from, pass);
    }
    bool right = false;
    bool half = false;
    std::optional<ContactRef> foreign;
    for (const ContactRef& met : own) {
        const Meeting meeting = meet(design_, promise, met);
        shorted = shorted || meeting == Meeting::clash;
        if (met.port != promise.to.port || meeting == Meeting::nothing) continue;
        const bool better = meeting == Meeting::wanted && (!right || met == promise.to);
        if (better || !pass.reached) pass.reached = met;
        right = right || meeting == Meeting::wanted;
        half = half || meeting == Meeting::other_half;
        if (meeting == Meeting::wanted) continue;
        if (foreign && !are_alike(*foreign, met)) shorted = true;
        foreign = met;
    }
    if (shorted && wiring_.joined(from, wiring_.point_of(promise.to))) {
        pass.reached = promise.to;
    }
    if (shorted || (right && foreign)) {
        pass.state = State::shorted;
    } else if (right) {
        pass.state = State::good;
    } else if (!foreign) {
        pass.state = State::open;
    } else {
        pass.state = half && other_half_comes_here(promise) ? State::swapped : State::wrong;
    }
}

/// The contacts of a promise's two ports that are on its piece, the near port's first.
std::vector<ContactRef> Arrivals::contacts_at_its_ports(const Promise& promise,
                                                        std::uint32_t piece) const {
    std::vector<ContactRef> own;
    for (const PortRef port : {promise.from.port, promise.to.port}) {
        Point point = wiring_.point_of(ContactRef{port, 0});
        for (std::size_t i = 0; i < design_.port(port).contacts.size(); ++i) {
            if (wiring_.piece_of(point++) == piece) own.push_back({port, i});
        }
    }
    return own;
}

/// Whether a contact of a third device is on the piece that must not be. Told by counting, so
/// that a thousand devices on one supply cost no more than one.
bool Arrivals::meets_stranger(const Promise& promise, std::uint32_t piece,
                              const std::vector<ContactRef>& own) const {
    std::array<std::size_t, 4> strangers = standings_[piece];
    for (const ContactRef& contact : own) {
        --strangers[place_of(standing_of(design_, contact))];
    }
    const auto clash = [&](Standing standing) {
        return strangers[place_of(standing)] > 0 && clashes(promise, standing);
    };
    return clash(Standing::ground) || clash(Standing::supply) || clash(Standing::signal);
}

bool Arrivals::are_grounds(const std::vector<ContactRef>& contacts) const {
    return std::ranges::all_of(contacts, [&](const ContactRef& contact) {
        const Signal* signal = design_.signal_of(contact);
        return signal && is_ground(signal->role);
    });
}

/// Whether two contacts bear one signal; all grounds are alike.
bool Arrivals::are_alike(const ContactRef& one, const ContactRef& other) const {
    const Signal* here = design_.signal_of(one);
    const Signal* there = design_.signal_of(other);
    if (!here || !there) return false;
    return here == there || (is_ground(here->role) && is_ground(there->role));
}

/// A ground among grounds arrives if the very contact that waits for it is on its piece: that
/// the far board joins its grounds somewhere is no return path at this contact.
void Arrivals::arrive_at_ground(Point from, Pass& pass) const {
    if (!wiring_.joined(from, wiring_.point_of(pass.to))) return;
    pass.reached = pass.to;
    pass.state = State::good;
}

bool Arrivals::other_half_comes_here(const Promise& promise) const {
    const std::optional<ContactRef> twin = other_half_of(design_, promise.from);
    return twin && wiring_.joined(wiring_.point_of(*twin), wiring_.point_of(promise.to));
}

}  // namespace pinfold
