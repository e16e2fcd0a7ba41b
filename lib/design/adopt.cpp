#include "design/adopt.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>
#include <unordered_map>

#include "base/ascii.hpp"
#include "base/spelling.hpp"
#include "design/adopt_doubts.hpp"
#include "design/adopt_ground.hpp"
#include "design/adopt_names.hpp"
#include "design/adopt_port.hpp"
#include "design/adopt_series.hpp"

namespace pinfold {
namespace {

/// A pad's number: `7`, not `07`, not `A7`; nothing above what a port may hold.
std::optional<int> pad_number(std::string_view label) {
    constexpr std::size_t longest = 4;
    if (label.empty() || label.size() > longest || label.front() == '0') return std::nullopt;
    int number = 0;
    const auto [end, fault] = std::from_chars(label.data(), label.data() + label.size(), number);
    if (fault != std::errc() || end != label.data() + label.size() || number < 1) {
        return std::nullopt;
    }
    return number;
}

bool is_plain(std::string_view name) {
    constexpr std::size_t longest = 64;
    return !name.empty() && name.size() <= longest && std::ranges::all_of(name, [](char c) {
        return is_letter(c) || is_digit(c) || c == '-' || c == '_';
    });
}

/// Makes a board of the parts the user named.
class Adopter {
public:
    Adopter(const Netlist& drawn, const std::vector<PartWords>& parts, Library& library)
        : drawn_(drawn), parts_(parts), library_(library) {}

    Adoption adopt(NetNaming naming) {
        for (std::size_t p = 0; p < parts_.size(); ++p) {
            if (!named_.try_emplace(parts_[p].reference, p).second) {
                refuse("adopt-reference",
                       fmt::format("'{}' is named twice by --connector", parts_[p].reference));
            }
        }
        pads_.resize(parts_.size());
        for (const Netlist::Component& part : drawn_.components) part_of_[part.reference] = &part;
        gather_pads();
        make_ports();
        adoption_.ground = drawn_ground(adoption_, pads_, drawn_, library_);
        series_ = drawn_series(drawn_, pads_, adoption_);
        lay_pads();
        see_separate_grounds();
        tell_strangers();
        adoption_.title = drawn_.title;
        name_nets(adoption_, drawn_, library_, naming);
        tell_doubts(adoption_, drawn_, library_);
        sort_by_severity(adoption_.doubts);
        return std::move(adoption_);
    }

private:
    void doubt(Severity severity, const char* rule, std::string text, const Mark& at,
               std::vector<Note> notes = {}) {
        adoption_.doubts.push_back({severity, rule, std::move(text), at, std::move(notes)});
    }

    void gather_pads() {
        for (std::size_t net = 0; net < drawn_.nets.size(); ++net) {
            for (const Netlist::Node& node : drawn_.nets[net].nodes) {
                const auto part = named_.find(node.reference);
                if (part == named_.end()) continue;
                pads_[part->second].try_emplace(node.pad, AdoptedPad{net, node.at});
            }
        }
    }

    void make_ports() {
        if (parts_.empty()) {
            refuse("adopt-reference", "name the connectors, such as --connector J1=hdmi-a");
        }
        for (std::size_t p = 0; p < parts_.size(); ++p) {
            const auto found = part_of_.find(parts_[p].reference);
            if (found == part_of_.end() && pads_[p].empty()) refuse_reference(parts_[p].reference);
            AdoptedPart part{found == part_of_.end() ? nullptr : found->second, 0};
            for (const auto& [label, pad] : pads_[p]) {
                part.highest = std::max(part.highest, pad_number(label).value_or(0));
            }
            adoption_.ports.push_back(adopt_port(part, parts_[p], library_, adoption_.doubts));
            adoption_.ports.back().name = port_name(part, p);
        }
    }

    [[noreturn]] void refuse_reference(const std::string& reference) const {
        std::vector<std::string> known;
        for (const Netlist::Component& part : drawn_.components) known.push_back(part.reference);
        refuse("adopt-reference", fmt::format("no part of the netlist is called '{}'{}; it has {}",
                                              reference, did_you_mean(reference, known),
                                              known.empty() ? "none" : names_in_sentence(known)));
    }

    /// The port's name our own netlists carry, else the reference, else a number; each once.
    std::string port_name(const AdoptedPart& part, std::size_t p) {
        std::vector<std::string> wishes;
        if (part.component) wishes.push_back(part.component->port);
        wishes.push_back(parts_[p].reference);
        for (const std::string& wish : wishes) {
            if (is_plain(wish) && port_names_.insert(wish).second) return wish;
        }
        std::size_t number = p + 1;
        while (!port_names_.insert(fmt::format("port-{}", number)).second) ++number;
        return fmt::format("port-{}", number);
    }

    std::size_t net_of(std::size_t net) const {
        const auto found = series_.joined.find(net);
        return found == series_.joined.end() ? net : found->second;
    }

    void lay_pads() {
        for (std::size_t p = 0; p < parts_.size(); ++p) {
            AdoptedPort& port = adoption_.ports[p];
            for (AdoptedContact& contact : port.contacts) {
                const auto pad = pads_[p].find(contact.label);
                if (pad == pads_[p].end()) continue;
                pad->second.is_contact = true;
                contact.at = pad->second.at;
                if (contact.absent) {
                    doubt(Severity::warning, "adopt-pad",
                          fmt::format("{}.{}: a {} {} has no metal here; left out", port.reference,
                                      contact.label, port.connector, name_of(port.gender)),
                          contact.at);
                } else {
                    contact.net = net_of(pad->second.net);
                }
            }
            lay_shell(port, pads_[p]);
        }
    }

    /// Pads that are no contacts: on ground they are the shield, elsewhere nobody knows.
    void lay_shell(AdoptedPort& port, const AdoptedPads& pads) {
        std::vector<std::string> strange;
        Mark at;
        for (const auto& [label, pad] : pads) {
            if (pad.is_contact) continue;
            if (pad.net == adoption_.ground) {
                port.shell.push_back(label);
            } else {
                strange.push_back(label);
                if (!at.source) at = pad.at;
            }
        }
        std::ranges::sort(port.shell, natural_less);
        if (strange.empty()) return;
        std::ranges::sort(strange, natural_less);
        if (strange.size() == pads.size()) {
            refuse("adopt-connector",
                   fmt::format("no pad of {} is a contact of {}: its pads are {}", port.reference,
                               port.connector.empty() ? port.receptacle : port.connector,
                               names_in_sentence(strange)));
        }
        doubt(Severity::warning, "adopt-pad",
              fmt::format("{}: pads {} are no contacts and not on ground; left out", port.reference,
                          names_in_sentence(strange)),
              at);
    }

    void tell_strangers() {
        std::vector<std::string> skipped;
        for (const Netlist::Component& part : drawn_.components) {
            const bool known =
                named_.contains(part.reference) ||
                std::ranges::find(series_.references, part.reference) != series_.references.end();
            if (!known) skipped.push_back(part.reference);
        }
        if (skipped.empty()) return;
        std::ranges::sort(skipped, natural_less);
        doubt(Severity::note, "adopt-part",
              fmt::format("left out, for no --connector names {}: {}",
                          skipped.size() == 1 ? "it" : "them", names_in_sentence(skipped)),
              part_of_.at(skipped[0])->at);
    }

    /// Shields joined to other contacts, but not to the ground.
    void see_separate_grounds() {
        std::map<std::size_t, std::size_t> contacts_on;
        for (const AdoptedPort& port : adoption_.ports) {
            for (const AdoptedContact& contact : port.contacts) ++contacts_on[contact.net];
        }
        for (const AdoptedPort& port : adoption_.ports) {
            for (const AdoptedContact& contact : port.contacts) {
                const bool apart = contact.net != no_net && contact.net != adoption_.ground &&
                                   contacts_on[contact.net] > 1;
                if (apart && bears_ground(port, contact)) adoption_.separate_grounds = true;
            }
        }
    }

    const Netlist& drawn_;
    const std::vector<PartWords>& parts_;
    Library& library_;
    Adoption adoption_;
    std::unordered_map<std::string_view, std::size_t> named_;
    std::unordered_map<std::string_view, const Netlist::Component*> part_of_;
    std::vector<AdoptedPads> pads_;  ///< per named part
    DrawnSeries series_;
    std::set<std::string> port_names_;
};

using NetGroups = std::set<std::set<std::pair<std::string, std::string>>>;

/// Sets of pads joined to each other; a pad alone is joined to nothing.
NetGroups without_loners(
    const std::map<std::size_t, std::set<std::pair<std::string, std::string>>>& nets) {
    NetGroups partition;
    for (const auto& [net, pads] : nets) {
        if (pads.size() > 1) partition.insert(pads);
    }
    return partition;
}

}  // namespace

PartWords part_words(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos || equals == 0 || equals + 1 == text.size()) {
        refuse("adopt-words",
               fmt::format("'{}' must be a reference and what it is, such as J1=hdmi-a", text));
    }
    return {std::string(text.substr(0, equals)), std::string(text.substr(equals + 1))};
}

Adoption adopt(const Netlist& drawn, const std::vector<PartWords>& parts, Library& library,
               NetNaming naming) {
    return Adopter(drawn, parts, library).adopt(naming);
}

bool joins_as_adopted(const Adoption& adoption, const Netlist& board) {
    std::map<std::size_t, std::set<std::pair<std::string, std::string>>> meant, read;
    for (const AdoptedPort& port : adoption.ports) {
        for (const AdoptedContact& contact : port.contacts) {
            if (contact.net == no_net) continue;
            meant[contact.net].emplace(port.reference, contact.label);
        }
        for (const std::string& label : port.shell) {
            meant[adoption.ground].emplace(port.reference, label);
        }
    }
    for (std::size_t net = 0; net < board.nets.size(); ++net) {
        for (const Netlist::Node& node : board.nets[net].nodes) {
            read[net].emplace(node.reference, node.pad);
        }
    }
    return without_loners(meant) == without_loners(read);
}

}  // namespace pinfold
