#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/ascii.hpp"
#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "pinmap/read.hpp"

namespace pinfold {
namespace {

std::optional<std::size_t> signal_of(const std::string& name, const Interface& interface,
                                     const Mark& at, Findings& findings) {
    const auto found = std::ranges::find(interface.signals, name, &Signal::name);
    if (found != interface.signals.end()) {
        return static_cast<std::size_t>(found - interface.signals.begin());
    }
    std::vector<std::string> known{"open", "absent"};
    for (const Signal& signal : interface.signals) known.push_back(signal.name);
    complain(findings, "signal-unknown",
             fmt::format("interface {} has no signal '{}'{}", interface.id, name,
                         did_you_mean(name, known)),
             at);
    return std::nullopt;
}

/// "A" of A12, "" of 12, and the number behind it.
std::pair<std::string, std::optional<int>> row_and_number(const std::string& label) {
    const std::size_t cut = std::min(label.find_first_of("0123456789"), label.size());
    return {label.substr(0, cut), parse_whole(std::string_view(label).substr(cut))};
}

/// Contacts count up by one from 1 in every lettered row, each once.
void require_unbroken(const std::vector<Contact>& contacts, Findings& findings) {
    std::map<std::string, int> last;
    std::map<std::string, Mark> seen;
    for (const Contact& contact : contacts) {
        const auto [twin, is_new] = seen.try_emplace(contact.label, contact.at);
        if (!is_new) {
            complain(findings, "contact-twice",
                     fmt::format("contact {} stands twice", contact.label), contact.at,
                     {{twin->second, "first here"}});
            continue;
        }
        const auto [row, number] = row_and_number(contact.label);
        const bool is_lettered = std::ranges::all_of(row, is_letter);
        if (!number || !is_lettered || contact.label != fmt::format("{}{}", row, *number)) {
            complain(findings, "contact-label",
                     fmt::format("a contact is a number, or a letter and a number, not '{}'",
                                 contact.label),
                     contact.at);
            continue;
        }
        int& before = last[row];
        if (*number != before + 1) {
            complain(
                findings, "contact-row",
                fmt::format("contact {}{} expected here, found {}", row, before + 1, contact.label),
                contact.at);
        }
        before = *number;
    }
}

/// A pair that is here at all is here with both halves.
void require_both_halves(const std::vector<Contact>& contacts, const Interface& interface,
                         Findings& findings) {
    std::vector<Mark> marks(interface.signals.size());
    for (const Contact& contact : contacts) {
        if (contact.signal) marks[*contact.signal] = contact.at;
    }
    for (const Pair& pair : interface.pairs) {
        const Mark& plus = marks[pair.plus];
        const Mark& minus = marks[pair.minus];
        if ((plus.line == 0) == (minus.line == 0)) continue;
        const bool has_plus = plus.line != 0;
        complain(findings, "pair-half",
                 fmt::format("pair {} has only its {} half here", pair.name,
                             has_plus ? "plus" : "minus"),
                 has_plus ? plus : minus);
    }
}

std::vector<Contact> read_contacts(Fields& parent, const std::string& key,
                                   const Interface& interface, Findings& findings) {
    const std::vector<Yaml>& items = parent.list(key);
    const Mark at = parent.at(key);
    std::vector<Contact> contacts;
    for (const Yaml& item : items) {
        Fields fields(item, findings);
        Contact contact{ContactNumber(static_cast<int>(contacts.size()) + 1), {}, {}, false, {}};
        contact.label = fields.text("contact");
        contact.at = fields.at("contact");
        const std::string signal = fields.text("signal");
        const Mark signal_at = fields.at("signal");
        fields.done();
        contact.absent = signal == "absent";
        if (!signal.empty() && signal != "open" && !contact.absent) {
            contact.signal = signal_of(signal, interface, signal_at, findings);
        }
        contacts.push_back(std::move(contact));
    }
    if (items.empty()) complain(findings, "contact-row", "no contacts are listed", at);
    require_unbroken(contacts, findings);
    require_both_halves(contacts, interface, findings);
    return contacts;
}

void require_same_places(const Connector& connector, Findings& findings) {
    const auto& one = connector.contacts;
    const auto& other = connector.plug_contacts;
    const bool same = std::ranges::equal(one, other, {}, &Contact::label, &Contact::label);
    if (!same) {
        complain(findings, "contact-row",
                 "plug-contacts must list the same contacts in the same order; a missing one is "
                 "'absent'",
                 other.empty() ? Mark{} : other.front().at);
    }
}

bool read_flippable(Fields& fields, Findings& findings) {
    const std::vector<std::string> attitudes = fields.texts("attitudes");
    for (const std::string& word : attitudes) {
        if (word == "upright" || word == "flipped") continue;
        complain(findings, "yaml-word",
                 fmt::format("'attitudes' lists upright and flipped, not '{}'{}", word,
                             did_you_mean(word, {"upright", "flipped"})),
                 fields.at("attitudes"));
    }
    return std::ranges::find(attitudes, "flipped") != attitudes.end();
}

/// The pads of the shell, each with a name that no contact and no other pad has.
std::vector<std::string> read_shell(Fields& fields, const std::vector<Contact>& contacts,
                                    Findings& findings) {
    std::vector<std::string> shell = fields.texts("shell");
    std::set<std::string> taken;
    for (const Contact& contact : contacts) taken.insert(contact.label);
    for (const std::string& pad : shell) {
        if (taken.insert(pad).second) continue;
        complain(findings, "contact-twice",
                 fmt::format("the shell's pad '{}' has the name of another contact", pad),
                 fields.at("shell"));
    }
    return shell;
}

std::optional<Face> read_face(const Yaml* yaml, const Connector& connector, Findings& findings) {
    if (!yaml) return std::nullopt;
    Fields fields(*yaml, findings);
    Face face;
    face.source = fields.text("source");
    std::vector<std::string> missing;
    for (const Contact& contact : connector.contacts) missing.push_back(contact.label);
    for (const Yaml& row : fields.list("rows")) {
        face.rows.emplace_back();
        for (const Yaml& item : row.items) {
            face.rows.back().push_back(text_of(item, "a contact", findings));
            if (std::erase(missing, face.rows.back().back()) != 1) {
                complain(findings, "contact-label",
                         fmt::format("'{}' is no contact of this connector, or stands twice",
                                     face.rows.back().back()),
                         item.at);
            }
        }
    }
    fields.done();
    if (!missing.empty()) {
        complain(findings, "contact-row",
                 fmt::format("the face leaves out contact {}", missing.front()), yaml->at);
    }
    return face;
}

}  // namespace

Connector read_connector(std::string id, std::shared_ptr<const Source> source,
                         const FindInterface& find_interface) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    Connector connector;
    connector.id = std::move(id);

    Fields fields(yaml, findings);
    fields.version("pinfold-connector");
    connector.name = fields.text("name");
    connector.source = fields.text("source");
    connector.interface = fields.text("interface");
    if (connector.interface.empty()) throw InputError(std::move(findings));
    const Interface& interface = find_interface(connector.interface, fields.at("interface"));
    connector.end = fields.text_or("end", {});
    if (!connector.end.empty() && connector.end != interface.first_end &&
        connector.end != interface.second_end) {
        complain(findings, "interface-ends",
                 fmt::format("the ends of interface {} are {} and {}, not '{}'", interface.id,
                             interface.first_end, interface.second_end, connector.end),
                 fields.at("end"));
    }
    connector.body = fields.text_or("body", connector.id);
    connector.takes_ribbon =
        *fields.word_or<bool>("takes", {{"ribbon", true}, {"plug", false}}, false);
    connector.pitch = fields.quantity<Millimetres>("pitch").value_or(Millimetres{});
    connector.current = fields.maybe<Amperes>("current");
    connector.contact_resistance = fields.maybe<Ohms>("contact-resistance");
    fields.require("contacts");
    connector.contacts = read_contacts(fields, "contacts", interface, findings);
    connector.plug_contacts = fields.has("plug-contacts")
                                  ? read_contacts(fields, "plug-contacts", interface, findings)
                                  : connector.contacts;
    require_same_places(connector, findings);
    connector.flippable = read_flippable(fields, findings);
    connector.shell = read_shell(fields, connector.contacts, findings);
    connector.face = read_face(fields.any("face"), connector, findings);
    fields.done();

    if (!findings.empty()) throw InputError(std::move(findings));
    return connector;
}

}  // namespace pinfold
