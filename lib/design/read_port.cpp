#include "design/read_port.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/ascii.hpp"
#include "base/spelling.hpp"
#include "design/read_placing.hpp"

namespace pinfold {
namespace {

const Words<Hand> hand_words{{"left", Hand::left}, {"right", Hand::right}};

/// "hdmi-a plug" is a connector and a gender.
void read_connector_words(const std::string& text, const Mark& at, Port& port, ReaderDesk& desk) {
    const std::size_t blank = text.find(' ');
    const std::string gender = blank == std::string::npos ? "" : text.substr(blank + 1);
    if (gender != "plug" && gender != "receptacle") {
        complain(desk.findings, "port-gender",
                 fmt::format("'{}' must name a connector and say plug or receptacle, such as "
                             "'hdmi-a receptacle'",
                             text),
                 at);
        return;
    }
    port.connector = text.substr(0, blank);
    port.gender = gender == "plug" ? Gender::plug : Gender::receptacle;
    try {
        const Connector& connector = desk.library.connector(port.connector, at);
        desk.design.connectors.try_emplace(connector.id, connector);
        port.interface = connector.interface;
        port.shell = connector.shell;
        const Interface& interface = desk.library.interface(connector.interface, at);
        desk.design.interfaces.try_emplace(interface.id, interface);
        for (const Contact& contact : connector.contacts_of(port.gender)) {
            PortContact here{contact.label, {}, contact.signal, {}, contact.absent, at};
            if (contact.signal) here.name = interface.signals[*contact.signal].name;
            port.contacts.push_back(std::move(here));
        }
    } catch (const InputError& error) {
        take(desk.findings, error);
        port.connector.clear();
    }
}

const Interface* use_interface(const std::string& id, const Mark& at, ReaderDesk& desk) {
    try {
        const Interface& interface = desk.library.interface(id, at);
        desk.design.interfaces.try_emplace(id, interface);
        return &interface;
    } catch (const InputError& error) {
        take(desk.findings, error);
        return nullptr;
    }
}

void read_receptacle(Fields& fields, Port& port, ReaderDesk& desk) {
    const std::string id = fields.text("receptacle");
    const Hand first = fields.word<Hand>("first-contact", hand_words).value_or(Hand::left);
    try {
        const ReceptacleType& type = desk.library.receptacle(id, fields.at("receptacle"));
        desk.design.receptacle_types.try_emplace(id, type);
        port.ribbon = RibbonMouth{id, {type.side, first}};
        const bool has_map = !port.connector.empty();
        const int count =
            has_map ? static_cast<int>(port.contacts.size()) : fields.whole("positions", 1);
        if (!type.positions.holds(count)) {
            complain(desk.findings, "positions-made",
                     fmt::format("{} is made with {} to {} positions, not {}", id,
                                 type.positions.least, type.positions.most, count),
                     fields.at(has_map ? "receptacle" : "positions"));
            return;
        }
        for (int n = 1; !has_map && n <= count; ++n) {
            port.contacts.push_back({std::to_string(n), {}, {}, {}, false, port.at});
        }
    } catch (const InputError& error) {
        take(desk.findings, error);
    }
}

std::vector<std::pair<std::string, Mark>> read_names(Fields& fields, const std::string& key,
                                                     Findings& findings) {
    std::vector<std::pair<std::string, Mark>> names;
    for (const Yaml& item : fields.list(key)) {
        names.emplace_back(text_of(item, "a signal name", findings), item.at);
    }
    return names;
}

/// On a device a list of names says which signal each contact bears.
void bear_signals(const std::vector<std::pair<std::string, Mark>>& names,
                  const Interface& interface, bool strict, WrittenPort& written,
                  Findings& findings) {
    std::vector<std::string> known{"open"};
    for (const Signal& signal : interface.signals) known.push_back(signal.name);
    for (std::size_t i = 0; i < names.size() && i < written.port.contacts.size(); ++i) {
        const auto& [name, at] = names[i];
        PortContact& contact = written.port.contacts[i];
        contact.at = at;
        if (name == "open" || name.empty()) continue;
        contact.signal = interface.find(name);
        contact.name = contact.signal ? interface.signals[*contact.signal].name : name;
        if (contact.signal || !strict) continue;
        complain(findings, "signal-unknown",
                 fmt::format("interface {} has no signal '{}'{}", interface.id, name,
                             did_you_mean(name, known)),
                 at);
    }
}

void require_count(const WrittenPort& written,
                   const std::vector<std::pair<std::string, Mark>>& names, const Mark& at,
                   Findings& findings) {
    if (names.size() == written.port.contacts.size() || written.port.contacts.empty()) return;
    complain(findings, "contact-count",
             fmt::format("{} has {} contacts, but {} are listed", written.port.name,
                         written.port.contacts.size(), names.size()),
             at);
}

void read_device_signals(Fields& fields, WrittenPort& written, ReaderDesk& desk) {
    const bool pads = fields.has("pads");
    const bool mapped = !written.port.connector.empty();
    const std::string key = pads ? "pads" : "signals";
    if (mapped && !fields.has(key)) return;
    const bool named = fields.has("interface");
    written.port.interface = fields.text_or("interface", mapped ? written.port.interface : "plain");
    const Interface* interface =
        use_interface(written.port.interface, fields.at(named ? "interface" : key), desk);
    fields.require(key);
    const auto names = read_names(fields, key, desk.findings);
    require_count(written, names, fields.at(key), desk.findings);
    if (interface) {
        for (PortContact& contact : written.port.contacts) {
            contact.signal.reset();
            contact.name.clear();
        }
        bear_signals(names, *interface, named || mapped, written, desk.findings);
    }
}

void make_pads(Fields& fields, Port& port, ReaderDesk& desk) {
    const Yaml* pads = fields.any("pads");
    if (!pads || pads->kind != Yaml::Kind::list) return;
    constexpr std::size_t most_pads = 2000;
    if (pads->items.size() > most_pads) {
        complain(desk.findings, "contact-count",
                 fmt::format("a port has at most {} pads", most_pads), pads->at);
        return;
    }
    for (std::size_t n = 1; n <= pads->items.size(); ++n) {
        port.contacts.push_back({std::to_string(n), {}, {}, {}, false, pads->items[n - 1].at});
    }
}

void read_copper(Fields& fields, WrittenPort& written, Findings& findings) {
    const std::string key = fields.has("pads") ? "pads" : "wired";
    const Yaml* wired = fields.any(key);
    if (wired && wired->kind == Yaml::Kind::scalar && wired->scalar == "best") {
        written.port.best = wired->at;
        if (!written.port.ribbon) {
            complain(findings, "order-port",
                     "only the order of a port that takes a ribbon can be left open", wired->at);
        }
        for (PortContact& contact : written.port.contacts) {
            contact.signal.reset();
            contact.name.clear();
        }
    } else if (fields.has("like")) {
        written.like = {fields.text("like"), fields.at("like")};
    } else if (fields.has(key)) {
        written.wired = read_names(fields, key, findings);
        require_count(written, written.wired, fields.at(key), findings);
        written.wired.resize(written.port.contacts.size());
    } else if (written.port.connector.empty()) {
        fields.require("wired");
    }
}

void require_mouth(const WrittenPort& written, const Mark& at, ReaderDesk& desk) {
    const Port& port = written.port;
    if (port.connector.empty()) return;
    const bool takes = desk.design.connectors.at(port.connector).takes_ribbon;
    if (takes && !port.ribbon) {
        complain(desk.findings, "port-receptacle",
                 fmt::format("a ribbon goes into {}: say which receptacle the part is and where "
                             "its first contact is, such as {{connector: {} receptacle, "
                             "receptacle: ffc-1.00-bottom, first-contact: left}}",
                             port.connector, port.connector),
                 at);
    } else if (!takes && port.ribbon) {
        complain(desk.findings, "port-receptacle",
                 fmt::format("{} takes a plug, not a ribbon", port.connector), at);
    }
}

}  // namespace

void require_plain_name(const std::string& name, const Mark& at, Findings& findings) {
    const bool plain = !name.empty() && std::ranges::all_of(name, [](char c) {
        return is_letter(c) || is_digit(c) || c == '-' || c == '_';
    });
    if (plain) return;
    complain(findings, "name",
             fmt::format("'{}': a name is made of letters, digits, - and _", name), at);
}

WrittenPort read_port(const Yaml::Entry& entry, bool on_device, ReaderDesk& desk) {
    WrittenPort written;
    Port& port = written.port;
    port.name = entry.key;
    port.at = entry.at;
    require_plain_name(entry.key, entry.at, desk.findings);
    if (entry.value.kind == Yaml::Kind::scalar) {
        read_connector_words(entry.value.scalar, entry.value.at, port, desk);
        require_mouth(written, entry.value.at, desk);
        return written;
    }

    Fields fields(entry.value, desk.findings);
    if (fields.has("connector")) {
        const std::string words = fields.text("connector");
        read_connector_words(words, fields.at("connector"), port, desk);
    }
    if (fields.has("receptacle")) read_receptacle(fields, port, desk);
    if (fields.has("pads")) make_pads(fields, port, desk);
    if (!fields.has("connector") && !fields.has("receptacle") && !fields.has("pads")) {
        complain(desk.findings, "port-kind", "a port needs 'connector', 'receptacle' or 'pads'",
                 entry.at);
    }
    if (on_device) {
        read_device_signals(fields, written, desk);
    } else {
        read_copper(fields, written, desk.findings);
    }
    port.reference = fields.text_or("reference", {});
    port.footprint = fields.text_or("footprint", {});
    port.part = fields.text_or("part", {});
    if (fields.has("shell")) port.shell = fields.texts("shell");
    const Yaml* placing = on_device ? nullptr : fields.any("placing");
    if (placing) port.placing = read_placing(*placing, port, desk.design, desk.findings);
    fields.done();
    require_mouth(written, entry.at, desk);
    return written;
}

}  // namespace pinfold
