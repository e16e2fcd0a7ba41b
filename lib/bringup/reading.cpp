#include "bringup/reading.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/quantity.hpp"
#include "base/spelling.hpp"

namespace pinfold {
namespace {

NamedPoint unknown(std::string text) { return {std::nullopt, std::move(text)}; }

/// A contact by label or signal; on a board also by any usual name of the signal it is wired to.
std::optional<std::size_t> contact_named(const Design& design, PortRef ref, std::string_view name) {
    const Port& port = design.port(ref);
    if (const auto contact = find_contact(port, design.interface_of(port), name)) return contact;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        if (!port.contacts[i].net) continue;
        const Net& net = design.boards[ref.board].nets[*port.contacts[i].net];
        const auto interface = design.interfaces.find(net.interface);
        if (!net.signal || interface == design.interfaces.end()) continue;
        if (interface->second.find(name) == net.signal) return i;
    }
    return std::nullopt;
}

NamedPoint find_conductor(const Design& design, const Wiring& wiring, std::size_t ribbon,
                          std::string_view rest) {
    const Ribbon& cut = design.ribbons[ribbon];
    const std::string_view end = rest.substr(0, rest.find('.'));
    const std::string_view place = rest.size() > end.size() ? rest.substr(end.size() + 1) : "";
    const auto number = parse_whole(place);
    if ((end != "a" && end != "b") || !number || *number < 1 || *number > cut.conductors) {
        return unknown(fmt::format("a conductor of {} is written {}.a.1 to {}.b.{}, not '{}.{}'",
                                   cut.name, cut.name, cut.name, cut.conductors, cut.name, rest));
    }
    return {wiring.point_of(ribbon, end == "a" ? End::a : End::b, ConductorNumber(*number)), {}};
}

NamedPoint find_on_board(const Design& design, const Wiring& wiring, std::size_t board,
                         std::string_view rest) {
    const Board& there = design.boards[board];
    const std::string port_name(rest.substr(0, rest.find('.')));
    const auto port = there.find_port(port_name);
    if (!port) {
        std::vector<std::string> known;
        for (const Port& any : there.ports) known.push_back(any.name);
        return unknown(fmt::format("{} has no port '{}'{}; its ports: {}", there.name, port_name,
                                   did_you_mean(port_name, known), fmt::join(known, ", ")));
    }
    const std::string name(
        trimmed(rest.size() > port_name.size() ? rest.substr(port_name.size() + 1) : ""));
    const PortRef ref{board, *port};
    if (const auto contact = contact_named(design, ref, name)) {
        return {wiring.point_of(ContactRef{ref, *contact}), {}};
    }
    std::vector<std::string> known;
    for (const PortContact& any : there.ports[*port].contacts) {
        known.push_back(any.label);
        if (!any.name.empty()) known.push_back(any.name);
    }
    return unknown(fmt::format("{} has no contact or signal '{}'{}", name_of(design, ref), name,
                               did_you_mean(name, known)));
}

}  // namespace

NamedPoint find_point(const Design& design, const Wiring& wiring, std::string_view text) {
    const std::string_view name = trimmed(text);
    const std::string first(name.substr(0, name.find('.')));
    const std::string_view rest = name.size() > first.size() ? name.substr(first.size() + 1) : "";
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (design.boards[b].name == first) return find_on_board(design, wiring, b, rest);
    }
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        if (design.ribbons[r].name == first) return find_conductor(design, wiring, r, rest);
    }
    std::vector<std::string> known;
    for (const Board& board : design.boards) known.push_back(board.name);
    for (const Ribbon& ribbon : design.ribbons) known.push_back(ribbon.name);
    return unknown(
        fmt::format("nothing is named '{}' here{}; a point is written board.port.contact "
                    "or ribbon.a.conductor",
                    first, did_you_mean(first, known)));
}

}  // namespace pinfold
