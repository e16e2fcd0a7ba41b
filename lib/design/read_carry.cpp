#include <fmt/format.h>

#include <algorithm>

#include "base/spelling.hpp"
#include "design/read_promises.hpp"

namespace pinfold {
namespace {

std::ptrdiff_t interface_supplies(const Interface& interface) {
    return std::ranges::count(interface.signals, Role::supply, &Signal::role);
}

/// A port speaks its own interface and those that may also be carried on it.
bool speaks(PortRef ref, const Interface& interface, const Mark& at, ReaderDesk& desk) {
    const Port& port = desk.design.port(ref);
    const Interface* here = desk.design.interface_of(port);
    const bool can =
        here && (here->id == interface.id ||
                 std::ranges::find(interface.also_on, here->id) != interface.also_on.end());
    if (can) return true;
    complain(desk.findings, "carry-port",
             fmt::format("{} does not speak {}{}", name_of(desk.design, ref), interface.id,
                         here ? fmt::format("; it speaks {}", here->id) : std::string{}),
             at, {{port.at, "the port is here"}});
    return false;
}

/// Current and voltage of an interface with several supplies are promised supply by supply.
void require_one_supply(const Carry& carry, const Interface& interface, ReaderDesk& desk) {
    if (interface_supplies(interface) < 2) return;
    if (!carry.current && !carry.power && !carry.voltage && !carry.least) return;
    complain(
        desk.findings, "carry-supplies",
        fmt::format("{} has several supplies: state 'current', 'power', 'voltage' and 'least' in a "
                    "promise of each, such as {{supply: 3V3, from: ..., to: ...}}",
                    interface.id),
        carry.at);
}

bool can_speak(const Carry& carry, const Mark& at, ReaderDesk& desk) {
    try {
        const Interface& interface = desk.library.interface(carry.interface, at);
        desk.design.interfaces.try_emplace(interface.id, interface);
    } catch (const InputError& error) {
        take(desk.findings, error);
        return false;
    }
    const Interface& interface = desk.design.interfaces.at(carry.interface);
    require_one_supply(carry, interface, desk);
    return speaks(carry.from, interface, at, desk) && speaks(carry.to, interface, at, desk);
}

bool can_feed(const Carry& carry, const Mark& at, ReaderDesk& desk) {
    bool both = true;
    for (const PortRef ref : {carry.from, carry.to}) {
        const Port& port = desk.design.port(ref);
        const Interface* here = desk.design.interface_of(port);
        const auto signal = here ? here->find(carry.supply) : std::nullopt;
        const bool has = signal && here->signals[*signal].role == Role::supply &&
                         std::ranges::any_of(port.contacts, [&](const PortContact& c) {
                             return c.signal == signal;
                         });
        if (has) continue;
        both = false;
        complain(desk.findings, "carry-port",
                 fmt::format("{} has no supply '{}'", name_of(desk.design, ref), carry.supply), at,
                 {{port.at, "the port is here"}});
    }
    return both;
}

void require_left_out(const Carry& carry, const Mark& at, ReaderDesk& desk) {
    const Interface* near = desk.design.interface_of(desk.design.port(carry.from));
    for (const std::string& name : carry.left_out) {
        if (!near || near->find(name)) continue;
        std::vector<std::string> known;
        for (const Signal& signal : near->signals) known.push_back(signal.name);
        complain(desk.findings, "signal-unknown",
                 fmt::format("interface {} has no signal '{}'{}", near->id, name,
                             did_you_mean(name, known)),
                 at);
    }
}

}  // namespace

void read_carry(const Yaml& yaml, const NameIndex& names, ReaderDesk& desk) {
    Fields fields(yaml, desk.findings);
    Carry carry;
    carry.at = yaml.at;
    carry.interface = fields.text_or("interface", {});
    carry.supply = fields.text_or("supply", {});
    const auto from =
        names.find_port(fields.text("from"), fields.at("from"), NameIndex::Among::boards);
    const auto to = names.find_port(fields.text("to"), fields.at("to"), NameIndex::Among::boards);
    carry.rate = fields.maybe<GigabitsPerSecond>("rate");
    constexpr GigabitsPerSecond fastest(1000.0);  // no ribbon comes near
    if (carry.rate && *carry.rate > fastest) {
        complain(desk.findings, "carry-rate",
                 fmt::format("a rate is {:g} Gbit/s at most", fastest.value()), fields.at("rate"));
        carry.rate.reset();
    }
    carry.current = fields.maybe<Amperes>("current");
    carry.power = fields.maybe<Watts>("power");
    carry.voltage = fields.maybe<Volts>("voltage");
    carry.least = fields.maybe<Volts>("least");
    carry.left_out = fields.texts("leave-out");
    const Mark what = fields.at(carry.interface.empty() ? "supply" : "interface");
    const Mark without = fields.at("leave-out");
    fields.done();
    if (carry.interface.empty() == carry.supply.empty()) {
        complain(desk.findings, "carry-what",
                 "a promise carries either an 'interface' or a 'supply'", yaml.at);
        return;
    }
    if (carry.current && carry.power) {
        complain(desk.findings, "carry-load",
                 "a promise states its load as 'current' or as 'power', not both", yaml.at);
    }
    if (!from || !to) return;
    carry.from = *from;
    carry.to = *to;
    carry.name =
        fmt::format("{} {} to {}", carry.interface.empty() ? carry.supply : carry.interface,
                    name_of(desk.design, *from), name_of(desk.design, *to));
    if (*from == *to) {
        complain(desk.findings, "carry-itself",
                 fmt::format("a promise runs between two ports, not from {} to itself",
                             name_of(desk.design, *from)),
                 yaml.at);
        return;
    }
    if (carry.supply.empty() ? can_speak(carry, what, desk) : can_feed(carry, what, desk)) {
        require_left_out(carry, without, desk);
        desk.design.carries.push_back(std::move(carry));
    }
}

}  // namespace pinfold
