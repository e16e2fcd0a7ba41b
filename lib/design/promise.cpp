#include "design/promise.hpp"

#include <algorithm>
#include <span>
#include <utility>

namespace pinfold {
namespace {

/// A contact that is put to no use clashes with nothing.
bool is_idle(const PortContact& contact, const Signal* signal) {
    return signal ? signal->role == Role::unused : contact.name.empty();
}

/// Hands out the contacts of one port by signal: the first asks gets the first, and the last one
/// is given again when more ask than there are.
class PromisePlaces {
public:
    explicit PromisePlaces(const Design& design, PortRef port) {
        const Port& at = design.port(port);
        const std::vector<Signal>& signals = design.interface_of(at)->signals;
        given_.resize(signals.size());
        for (std::size_t i = 0; i < at.contacts.size(); ++i) {
            const std::optional<std::size_t> signal = at.contacts[i].signal;
            if (!signal) continue;
            bearers_.push_back({*signal, i});
            if (is_ground(signals[*signal].role)) grounds_.push_back(i);
        }
        std::ranges::sort(bearers_);
    }

    std::optional<std::size_t> next(std::size_t signal) {
        const auto first = std::ranges::lower_bound(bearers_, signal, {}, &Bearer::first);
        const auto last = std::ranges::upper_bound(bearers_, signal, {}, &Bearer::first);
        const std::span bearers(first, last);
        if (bearers.empty()) return std::nullopt;
        return bearers[std::min(given_[signal]++, bearers.size() - 1)].second;
    }

    std::optional<std::size_t> next_ground() {
        if (grounds_.empty()) return std::nullopt;
        return grounds_[std::min(given_grounds_++, grounds_.size() - 1)];
    }

private:
    using Bearer = std::pair<std::size_t, std::size_t>;  ///< a signal and a contact's place

    std::vector<Bearer> bearers_;     ///< in order
    std::vector<std::size_t> given_;  ///< by signal, how often
    std::vector<std::size_t> grounds_;
    std::size_t given_grounds_ = 0;
};

std::vector<std::size_t> left_out(const Carry& carry, const Interface& near) {
    std::vector<std::size_t> signals;
    for (const std::string& name : carry.left_out) {
        if (const auto signal = near.find(name)) signals.push_back(*signal);
    }
    return signals;
}

/// Whether a carry speaks of this signal at all. On a port of another interface that can carry it,
/// it speaks of its own signals only: USB 2 of D+ and D-, not of what else USB 3 has.
bool is_carried(const Design& design, const Carry& carry, const Interface& near, std::size_t signal,
                const std::vector<std::size_t>& without) {
    const Signal& told = near.signals[signal];
    if (!carry.supply.empty()) {
        return is_ground(told.role) || near.find(carry.supply) == signal;
    }
    if (near.id != carry.interface && !design.interfaces.at(carry.interface).find(told.name)) {
        return false;
    }
    return told.role != Role::unused && told.direction != Direction::outward &&
           std::ranges::find(without, signal) == without.end();
}

}  // namespace

bool is_ground(Role role) { return role == Role::ground || role == Role::pair_shield; }

std::optional<std::size_t> counterpart_in(const Interface& near, std::size_t signal,
                                          const Interface& far) {
    const std::size_t met = near.counterpart[signal];
    if (near.id == far.id) return met;
    return far.find(near.signals[met].name);
}

std::vector<Promise> promises_of(const Design& design, std::size_t carry_place) {
    const Carry& carry = design.carries[carry_place];
    const Port& from = design.port(carry.from);
    const Interface* near = design.interface_of(from);
    const Interface* far = design.interface_of(design.port(carry.to));
    if (!near || !far) return {};

    const std::vector<std::size_t> without = left_out(carry, *near);
    PromisePlaces places(design, carry.to);
    std::vector<Promise> promises;
    for (std::size_t i = 0; i < from.contacts.size(); ++i) {
        const std::optional<std::size_t> signal = from.contacts[i].signal;
        if (!signal || !is_carried(design, carry, *near, *signal, without)) continue;
        const Role role = near->signals[*signal].role;
        const auto met = carry.supply.empty() || is_ground(role)
                             ? counterpart_in(*near, *signal, *far)
                             : far->find(carry.supply);
        std::optional<std::size_t> to = met ? places.next(*met) : std::nullopt;
        if (!to && is_ground(role)) to = places.next_ground();
        if (!to) continue;
        promises.push_back({*signal, role, {carry.from, i}, {carry.to, *to}});
    }
    return promises;
}

std::optional<ContactRef> other_half_of(const Design& design, const ContactRef& contact) {
    const Port& port = design.port(contact.port);
    const Interface* interface = design.interface_of(port);
    const std::optional<std::size_t> signal = port.contacts[contact.contact].signal;
    if (!interface || !signal || interface->signals[*signal].role != Role::pair_half) {
        return std::nullopt;
    }
    const Pair& pair = interface->pairs[*interface->signals[*signal].pair];
    const std::size_t other = pair.plus == *signal ? pair.minus : pair.plus;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        if (port.contacts[i].signal == other) return ContactRef{contact.port, i};
    }
    return std::nullopt;
}

Standing standing_of(const Design& design, const ContactRef& contact) {
    const Signal* signal = design.signal_of(contact);
    if (!design.boards[contact.port.board].is_device) return Standing::idle;
    if (is_idle(design.contact(contact), signal)) return Standing::idle;
    if (signal && is_ground(signal->role)) return Standing::ground;
    return signal && signal->role == Role::supply ? Standing::supply : Standing::signal;
}

bool clashes(const Promise& promise, Standing standing) {
    if (standing == Standing::idle) return false;
    if (is_ground(promise.role)) return standing != Standing::ground;
    return promise.role != Role::supply || standing != Standing::supply;
}

Meeting meet(const Design& design, const Promise& promise, const ContactRef& met) {
    const PortContact& contact = design.contact(met);
    const Signal* signal = design.signal_of(met);
    if (met == promise.from || is_idle(contact, signal)) return Meeting::nothing;
    const bool at_far = met.port == promise.to.port;
    if (!at_far && met.port != promise.from.port) {
        return clashes(promise, standing_of(design, met)) ? Meeting::clash : Meeting::nothing;
    }

    if (is_ground(promise.role)) {
        if (signal && is_ground(signal->role)) {
            return at_far ? Meeting::wanted : Meeting::nothing;
        }
        return at_far ? Meeting::other : Meeting::clash;
    }
    if (at_far) {
        if (contact.signal == design.contact(promise.to).signal) return Meeting::wanted;
        const std::optional<ContactRef> twin = other_half_of(design, promise.to);
        const bool half = twin && contact.signal == design.contact(*twin).signal;
        return half ? Meeting::other_half : Meeting::other;
    }
    const bool same = contact.signal == design.contact(promise.from).signal;
    return same ? Meeting::nothing : Meeting::clash;
}

}  // namespace pinfold
