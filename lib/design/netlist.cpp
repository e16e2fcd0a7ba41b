#include "design/netlist.hpp"

#include <fmt/format.h>
#include <uuid/uuid.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <filesystem>
#include <map>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "base/ascii.hpp"

namespace pinfold {
namespace {

/// Name-based in its turn: version 5 of "pinfold.netlist" in the name space of domain names.
const std::string netlist_space = "a013914e-afea-58fb-a86f-4898b5609a39";

/// The number at the start of `text`, leading zeros dropped, and what it takes up.
struct Digits {
    std::string_view value;
    std::size_t length = 0;
};

Digits leading_digits(std::string_view text) {
    std::size_t length = 0;
    while (length < text.size() && is_digit(text[length])) ++length;
    std::size_t zeros = 0;
    while (zeros < length && text[zeros] == '0') ++zeros;
    return {text.substr(zeros, length - zeros), length};
}

/// The numbers at the start of both, by their value.
int compare_numbers(std::string_view one, std::string_view other) {
    const std::string_view a = leading_digits(one).value;
    const std::string_view b = leading_digits(other).value;
    if (a.size() != b.size()) return a.size() < b.size() ? -1 : 1;
    return a.compare(b);
}

int compare_natural(std::string_view one, std::string_view other) {
    while (!one.empty() && !other.empty()) {
        if (is_digit(one.front()) && is_digit(other.front())) {
            if (const int order = compare_numbers(one, other); order != 0) return order;
            one.remove_prefix(leading_digits(one).length);
            other.remove_prefix(leading_digits(other).length);
        } else {
            const auto a = static_cast<unsigned char>(one.front());
            const auto b = static_cast<unsigned char>(other.front());
            if (a != b) return a < b ? -1 : 1;
            one.remove_prefix(1);
            other.remove_prefix(1);
        }
    }
    return static_cast<int>(other.empty()) - static_cast<int>(one.empty());
}

/// In natural order of a text of each; long lists are put in order by their places, for the things
/// themselves are slow to move.
template <class Thing>
void sort_naturally(std::vector<Thing>& things, std::string Thing::*text) {
    std::vector<std::pair<std::string_view, std::size_t>> order;
    for (const Thing& thing : things) order.emplace_back(thing.*text, order.size());
    std::ranges::sort(order, [](const auto& one, const auto& other) {
        return natural_less(one.first, other.first);
    });
    std::vector<Thing> sorted;
    sorted.reserve(things.size());
    for (const auto& [word, place] : order) sorted.push_back(std::move(things[place]));
    things = std::move(sorted);
}

void complain_of(Findings& findings, const char* rule, std::string text, const Mark& at,
                 std::vector<Note> notes = {}) {
    findings.push_back({Severity::error, rule, std::move(text), at, std::move(notes)});
}

/// The references the board file gives, each with the port that bears it.
std::map<std::string, const Port*> given_references(const Board& board, Findings& findings) {
    std::map<std::string, const Port*> taken;
    for (const Port& port : board.ports) {
        if (port.reference.empty()) continue;
        if (port.reference.front() == '#') {
            complain_of(findings, "reference-virtual",
                        fmt::format("reference '{}' starts with #, which netlists keep for symbols "
                                    "without a part; write one such as J1",
                                    port.reference),
                        port.at);
        }
        const auto [twin, is_new] = taken.try_emplace(port.reference, &port);
        if (is_new) continue;
        complain_of(findings, "reference-twice",
                    fmt::format("reference '{}' is on two ports of {}: {} and {}", port.reference,
                                board.name, twin->second->name, port.name),
                    port.at, {{twin->second->at, "first here"}});
    }
    return taken;
}

/// One reference for each port, made up where the board file gives none.
std::vector<std::string> references_of(const Board& board, Findings& findings) {
    const auto taken = given_references(board, findings);
    std::vector<std::string> references;
    int number = 1;
    for (const Port& port : board.ports) {
        if (!port.reference.empty()) {
            references.push_back(port.reference);
            continue;
        }
        while (taken.contains(fmt::format("J{}", number))) ++number;
        references.push_back(fmt::format("J{}", number++));
    }
    return references;
}

std::string value_of(const Port& port) {
    if (!port.part.empty()) return port.part;
    if (port.ribbon) return fmt::format("{} {}-way", port.ribbon->receptacle, port.contacts.size());
    if (port.connector.empty()) return fmt::format("{} pads", port.contacts.size());
    return fmt::format("{} {}", port.connector, name_of(port.gender));
}

/// The signal the part bears at a contact, whatever the board wires there.
std::string function_of(const Design& design, const Port& port, std::size_t contact) {
    if (!port.connector.empty()) {
        const Connector& connector = design.connectors.at(port.connector);
        const auto signal = connector.contacts_of(port.gender).at(contact).signal;
        if (signal) return design.interfaces.at(connector.interface).signals[*signal].name;
    }
    return port.contacts[contact].name;
}

/// Puts together the netlist of one board.
class NetlistMaker {
public:
    NetlistMaker(const Design& design, const Board& board)
        : design_(design), board_(board), references_(references_of(board, findings_)) {}

    Netlist make() {
        netlist_.board = board_.name;
        netlist_.title = board_.title;
        netlist_.source = std::filesystem::path(design_.file).filename().string();
        start_nets();
        for (std::size_t p = 0; p < board_.ports.size(); ++p) add_component(p);
        if (!findings_.empty()) throw InputError(std::move(findings_));
        std::erase_if(netlist_.nets, [](const Netlist::Net& net) { return net.nodes.empty(); });
        make_names_unique();
        sort();
        return std::move(netlist_);
    }

private:
    /// The board's own nets, and a ground for shields if it has none.
    void start_nets() {
        for (const Net& net : board_.nets) netlist_.nets.push_back({net.name, false, {}, net.at});
        const auto ground = std::ranges::find_if(
            board_.nets, [](const Net& net) { return net.ground && net.interface.empty(); });
        ground_ = static_cast<std::size_t>(ground - board_.nets.begin());
        if (ground == board_.nets.end()) netlist_.nets.push_back({"GND", false, {}, board_.at});
    }

    void add_component(std::size_t p) {
        const Port& port = board_.ports[p];
        Netlist::Component component{
            references_[p], value_of(port), port.footprint, {}, port.name, {}, port.at};
        component.uuid =
            name_based_uuid(netlist_space, fmt::format("{}/{}", board_.name, component.reference));
        for (std::size_t i = 0; i < port.contacts.size(); ++i) add_contact(port, i, component);
        add_shields(port, component);
        remark_on_footprint(component);
        netlist_.components.push_back(std::move(component));
    }

    void add_contact(const Port& port, std::size_t i, Netlist::Component& component) {
        const PortContact& contact = port.contacts[i];
        if (contact.absent) return;
        const std::string function = function_of(design_, port, i);
        component.pads.push_back({contact.label, function});
        const Netlist::Node node{component.reference, contact.label, contact.at};
        if (contact.net) {
            netlist_.nets[*contact.net].nodes.push_back(node);
            return;
        }
        const std::string name =
            function.empty()
                ? fmt::format("unconnected-({}-Pad{})", node.reference, node.pad)
                : fmt::format("unconnected-({}-{}-Pad{})", node.reference, function, node.pad);
        netlist_.nets.push_back({name, true, {node}, contact.at});
    }

    /// Several shield pads of one name are one pad to a netlist.
    void add_shields(const Port& port, Netlist::Component& component) {
        if (port.shell.empty()) return;
        std::set<std::string_view> contacts, seen;
        for (const PortContact& contact : port.contacts) contacts.insert(contact.label);
        for (const std::string& pad : port.shell) {
            const bool is_contact = contacts.contains(pad);
            if (is_contact || pad.empty()) {
                complain_of(findings_, "shell-name",
                            fmt::format("'{}' cannot be a shield pad of {}: it {}", pad, port.name,
                                        is_contact ? "is a contact already" : "has no name"),
                            port.at);
            } else if (seen.insert(pad).second) {
                component.pads.push_back({pad, "SHIELD"});
                netlist_.nets[ground_].nodes.push_back({component.reference, pad, port.at});
            }
        }
    }

    void remark_on_footprint(const Netlist::Component& component) {
        const auto remark = [&](const char* rule, std::string text) {
            netlist_.remarks.push_back({Severity::warning, rule, std::move(text), component.at});
        };
        if (component.footprint.empty()) {
            remark("footprint-missing",
                   fmt::format("{} ({}) has no footprint in the netlist; name one on the board, "
                               "such as 'footprint: Library:Name'",
                               component.port, component.reference));
        } else if (component.footprint.find(':') == std::string::npos) {
            remark("footprint-library",
                   fmt::format("footprint '{}' of {} ({}) names no library; layout programs look "
                               "for 'Library:Name'",
                               component.footprint, component.port, component.reference));
        }
    }

    void make_names_unique() {
        std::unordered_set<std::string> taken;
        for (const Netlist::Net& net : netlist_.nets) taken.insert(net.name);
        std::unordered_map<std::string, int> used;  // the highest number each name was given
        for (Netlist::Net& net : netlist_.nets) {
            int& number = used.try_emplace(net.name, 0).first->second;
            if (++number == 1) continue;
            const std::string name = net.name;
            do net.name = fmt::format("{}_{}", name, number);
            while (!taken.insert(net.name).second && ++number);
        }
    }

    void sort() {
        sort_naturally(netlist_.components, &Netlist::Component::reference);
        for (Netlist::Component& component : netlist_.components) {
            std::ranges::sort(component.pads, natural_less, &Netlist::Pad::label);
        }
        sort_naturally(netlist_.nets, &Netlist::Net::name);
        for (Netlist::Net& net : netlist_.nets) {
            std::ranges::sort(net.nodes, [](const Netlist::Node& a, const Netlist::Node& b) {
                if (a.reference != b.reference) return natural_less(a.reference, b.reference);
                return natural_less(a.pad, b.pad);
            });
        }
    }

    const Design& design_;
    const Board& board_;
    Findings findings_;
    std::vector<std::string> references_;
    std::size_t ground_ = 0;  ///< in the netlist's nets
    Netlist netlist_;
};

std::set<std::set<Netlist::Node>> partition_of(const Netlist& netlist) {
    std::set<std::set<Netlist::Node>> partition;
    for (const Netlist::Net& net : netlist.nets) {
        if (!net.nodes.empty()) partition.emplace(net.nodes.begin(), net.nodes.end());
    }
    return partition;
}

}  // namespace

bool natural_less(std::string_view one, std::string_view other) {
    const int order = compare_natural(one, other);
    return order != 0 ? order < 0 : one < other;
}

std::string name_based_uuid(const std::string& space, std::string_view name) {
    uuid_t within, made;
    [[maybe_unused]] const int trouble = uuid_parse(space.c_str(), within);
    assert(trouble == 0);
    uuid_generate_sha1(made, within, name.data(), name.size());
    std::array<char, UUID_STR_LEN> text{};
    uuid_unparse_lower(made, text.data());
    return text.data();
}

Netlist netlist_of(const Design& design, std::size_t board) {
    assert(!design.boards[board].is_device);
    return NetlistMaker(design, design.boards[board]).make();
}

bool same_partition(const Netlist& one, const Netlist& other) {
    return partition_of(one) == partition_of(other);
}

}  // namespace pinfold
