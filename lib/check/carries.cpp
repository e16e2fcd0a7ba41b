#include "check/carries.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

#include "base/quantity.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

class CarryCheck {
public:
    CarryCheck(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    Findings find() {
        for (std::size_t c = 0; c < design_.carries.size(); ++c) {
            const Carry& carry = design_.carries[c];
            if (wiring_.passes_of(c).empty()) {
                add(Severity::error, "promise-empty",
                    fmt::format("'{}' promises nothing: no signal is left of it", carry.name),
                    carry);
            }
            if (!carry.interface.empty()) {
                check_end(carry, carry.from, true);
                check_end(carry, carry.to, false);
                check_rest(c);
            }
        }
        return std::move(findings_);
    }

private:
    void add(Severity severity, const char* rule, std::string text, const Carry& carry) {
        findings_.push_back({severity, rule, std::move(text), carry.at, {}, {carry.name}, {}});
    }

    /// A connector that stands for one end of its interface must be at that end of the promise.
    void check_end(const Carry& carry, PortRef ref, bool is_near) {
        const Port& port = design_.port(ref);
        const Interface* interface = design_.interface_of(port);
        if (port.connector.empty() || !interface) return;
        const std::string& end = design_.connectors.at(port.connector).end;
        const std::string& meant = is_near ? interface->first_end : interface->second_end;
        if (end.empty() || end == meant) return;
        add(Severity::error, "end-misfit",
            fmt::format("{} is {}, a connector of the {} end, but '{}' runs {} it as the {}",
                        name_of(design_, ref), port.connector, end, carry.name,
                        is_near ? "from" : "to", meant),
            carry);
    }

    /// Contacts of the near port that are in use but wait for nobody.
    void check_rest(std::size_t c) {
        const Carry& carry = design_.carries[c];
        const Port& near = design_.port(carry.from);
        std::vector<std::string> rest;
        for (const PortContact& contact : near.contacts) {
            if (contact.signal && is_promised(c, *contact.signal)) continue;
            if (!wants_partner(carry, contact)) continue;
            if (std::ranges::find(rest, contact.name) == rest.end()) rest.push_back(contact.name);
        }
        if (rest.empty()) return;
        add(Severity::note, "not-promised",
            fmt::format("{} of {} {} not promised: {} has no counterpart", fmt::join(rest, ", "),
                        name_of(design_, carry.from), rest.size() == 1 ? "is" : "are",
                        name_of(design_, carry.to)),
            carry);
    }

    bool is_promised(std::size_t c, std::size_t signal) const {
        const std::span<const Pass> passes = wiring_.passes_of(c);
        return std::ranges::find(passes, signal, &Pass::signal) != passes.end();
    }

    bool wants_partner(const Carry& carry, const PortContact& contact) const {
        if (!contact.signal) return !contact.name.empty();
        const Interface& near = *design_.interface_of(design_.port(carry.from));
        const Signal& signal = near.signals[*contact.signal];
        if (signal.role == Role::unused || signal.direction == Direction::outward) return false;
        if (signal.optional || is_ground(signal.role)) return false;
        const bool left_out = std::ranges::any_of(carry.left_out, [&](const std::string& name) {
            return near.find(name) == contact.signal;
        });
        const bool spoken_of =
            near.id == carry.interface || design_.interfaces.at(carry.interface).find(signal.name);
        return spoken_of && !left_out;
    }

    const Design& design_;
    const Wiring& wiring_;
    Findings findings_;
};

/// The voltages a supply may have: its interface's window, or what its name says within a tenth.
struct VoltageRange {
    Volts least, most;
    bool meets(const VoltageRange& other) const {
        return least <= other.most && other.least <= most;
    }
};

/// 3.3 of "3V3", 12 of "12V"; nothing for a name that states no voltage.
std::optional<double> voltage_in_name(std::string_view name) {
    const std::size_t v = name.find('V');
    if (v == std::string_view::npos || v == 0) return std::nullopt;
    const std::string text = v + 1 == name.size()
                                 ? std::string(name.substr(0, v))
                                 : fmt::format("{}.{}", name.substr(0, v), name.substr(v + 1));
    return parse_number(text);
}

std::optional<VoltageRange> voltages_of(const Design& design, const ContactRef& contact) {
    const Port& port = design.port(contact.port);
    const Supply* window =
        design.interface_of(port)->supply_of(*port.contacts[contact.contact].signal);
    if (window && window->least_at_source && window->most_at_source) {
        return VoltageRange{*window->least_at_source, *window->most_at_source};
    }
    const auto nominal = voltage_in_name(design.signal_of(contact)->name);
    if (!nominal) return std::nullopt;
    return VoltageRange{Volts(0.9 * *nominal), Volts(1.1 * *nominal)};
}

class SupplyCheck {
public:
    SupplyCheck(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {
        for (const Carry& carry : design.carries) named_.insert({carry.from, carry.to});
        for (const Pass& pass : wiring.passes()) {
            const std::uint32_t piece = wiring.piece_of(wiring.point_of(pass.from));
            if (pass.state != State::good && pass.state != State::open) told_.insert(piece);
            if (pass.role == Role::supply) fed_.insert(piece);
        }
    }

    Findings find() {
        for (std::uint32_t piece = 0; piece < wiring_.pieces(); ++piece) {
            if (wiring_.device_contacts(piece).size() > 1) check_piece(piece);
        }
        return std::move(findings_);
    }

private:
    void add(Severity severity, const char* rule, std::string text, const ContactRef& one,
             const ContactRef& other) {
        findings_.push_back(
            {severity,
             rule,
             std::move(text),
             design_.contact(one).at,
             {{design_.contact(other).at, "the other contact is here"}},
             {name_of(design_, one.port), name_of(design_, one), name_of(design_, other)},
             {}});
    }

    std::string told(const ContactRef& contact) const {
        return fmt::format("{} ({})", name_of(design_, contact), design_.contact(contact).name);
    }

    void check_piece(std::uint32_t piece) {
        std::optional<ContactRef> ground, supply, signal_contact;
        for (const ContactRef& contact : wiring_.device_contacts(piece)) {
            const Signal* signal = design_.signal_of(contact);
            if (!signal) continue;
            if (is_ground(signal->role) && !ground) ground = contact;
            const bool is_signal = !is_ground(signal->role) && signal->role != Role::supply &&
                                   signal->role != Role::unused;
            if (is_signal && !signal_contact) signal_contact = contact;
            if (signal->role != Role::supply) continue;
            if (supply) compare(piece, *supply, contact);
            if (!supply) supply = contact;
        }
        if (!supply || told_.contains(piece)) return;
        if (ground) {
            add(Severity::error, "signal-shorted",
                fmt::format("a supply is joined to ground: {}, {}", told(*supply), told(*ground)),
                *supply, *ground);
        } else if (signal_contact) {
            add(Severity::error, "signal-shorted",
                fmt::format("a supply is joined to a signal: {}, {}", told(*supply),
                            told(*signal_contact)),
                *supply, *signal_contact);
        }
    }

    void compare(std::uint32_t piece, const ContactRef& one, const ContactRef& other) {
        const auto first = voltages_of(design_, one);
        const auto second = voltages_of(design_, other);
        if (first && second && !first->meets(*second)) {
            add(Severity::error, "supplies-joined",
                fmt::format("supplies of different voltages are joined: {}, {}", told(one),
                            told(other)),
                one, other);
            return;
        }
        const bool is_stranger = design_.boards[other.port.board].is_device &&
                                 !named_.contains(other.port) && fed_.contains(piece);
        if (!is_stranger) return;
        add(Severity::warning, "supply-unpromised",
            fmt::format("{} is joined to the supply at {}, but no promise says who feeds whom",
                        told(other), told(one)),
            other, one);
    }

    const Design& design_;
    const Wiring& wiring_;
    std::set<PortRef> named_;       ///< ports that a promise names
    std::set<std::uint32_t> told_;  ///< pieces with a promised signal that fails
    std::set<std::uint32_t> fed_;   ///< pieces with a promised supply
    Findings findings_;
};

}  // namespace

Findings check_carries(const Design& design, const Wiring& wiring) {
    return CarryCheck(design, wiring).find();
}

Findings check_supplies(const Design& design, const Wiring& wiring) {
    return SupplyCheck(design, wiring).find();
}

}  // namespace pinfold
