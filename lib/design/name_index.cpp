#include "design/name_index.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/spelling.hpp"

namespace pinfold {

NameIndex::NameIndex(ReaderDesk& desk) : desk_(desk) {
    for (std::size_t b = 0; b < desk_.design.boards.size(); ++b) {
        const Board& board = desk_.design.boards[b];
        if (!board_places_.try_emplace(board.name, b).second) continue;
        for (std::size_t p = 0; p < board.ports.size(); ++p) {
            port_places_.try_emplace(name_of(desk_.design, PortRef{b, p}), PortRef{b, p});
        }
    }
    for (std::size_t r = 0; r < desk_.design.ribbons.size(); ++r) {
        ribbon_places_.try_emplace(desk_.design.ribbons[r].name, r);
    }
}

std::vector<std::string> NameIndex::known_names(Among among) const {
    std::vector<std::string> known;
    for (const Board& board : desk_.design.boards) known.push_back(board.name);
    for (const Ribbon& ribbon : desk_.design.ribbons) {
        if (among == Among::ribbons_too) known.push_back(ribbon.name);
    }
    return known;
}

std::optional<PortRef> NameIndex::find_port(const std::string& text, const Mark& at,
                                            Among among) const {
    if (text.empty()) return std::nullopt;  // the field has been complained of
    const auto port = port_places_.find(text);
    if (port != port_places_.end()) return port->second;
    const std::size_t dot = text.find('.');
    const std::string board_name = text.substr(0, dot);
    const auto board = board_places_.find(board_name);
    if (board == board_places_.end()) {
        const auto known = known_names(among);
        complain(desk_.findings, "name-unknown",
                 fmt::format("nothing is named '{}' here{}", board_name,
                             did_you_mean(board_name, known)),
                 at);
        return std::nullopt;
    }
    const std::string port_name = dot == std::string::npos ? std::string{} : text.substr(dot + 1);
    std::vector<std::string> known;
    for (const Port& any : desk_.design.boards[board->second].ports) known.push_back(any.name);
    complain(desk_.findings, "port-unknown",
             fmt::format("{} has no port '{}'{}; its ports: {}", board_name, port_name,
                         did_you_mean(port_name, known), fmt::join(known, ", ")),
             at);
    return std::nullopt;
}

std::optional<NameIndex::Side> NameIndex::find_side(const std::string& text, const Mark& at) const {
    const std::size_t dot = text.find('.');
    const std::string name = text.substr(0, dot);
    const auto ribbon = ribbon_places_.find(name);
    if (ribbon == ribbon_places_.end()) {
        const auto port = find_port(text, at, Among::ribbons_too);
        return port ? std::optional(Side{port, {}}) : std::nullopt;
    }
    const std::string end = dot == std::string::npos ? std::string{} : text.substr(dot + 1);
    if (end != "a" && end != "b") {
        complain(desk_.findings, "ribbon-end",
                 fmt::format("a ribbon has the ends {}.a and {}.b, not '{}'", name, name, text),
                 at);
        return std::nullopt;
    }
    return Side{{}, std::pair{ribbon->second, end == "a" ? End::a : End::b}};
}

std::optional<ContactRef> NameIndex::find_contact_ref(const std::string& text,
                                                      const Mark& at) const {
    if (text.empty()) return std::nullopt;  // the field has been complained of
    const std::size_t first = text.find('.');
    const std::size_t second = first == std::string::npos ? first : text.find('.', first + 1);
    if (second == std::string::npos) {
        complain(desk_.findings, "contact-unknown",
                 fmt::format("a contact is written board.port.contact, not '{}'", text), at);
        return std::nullopt;
    }
    const auto port = find_port(text.substr(0, second), at, Among::boards);
    if (!port) return std::nullopt;
    const Port& there = desk_.design.port(*port);
    const std::string name = text.substr(second + 1);
    if (const auto contact = find_contact(there, desk_.design.interface_of(there), name)) {
        return ContactRef{*port, *contact};
    }
    std::vector<std::string> known;
    for (const PortContact& any : there.contacts) {
        known.push_back(any.label);
        known.push_back(any.name);
    }
    complain(desk_.findings, "contact-unknown",
             fmt::format("{} has no contact or signal '{}'{}", name_of(desk_.design, *port), name,
                         did_you_mean(name, known)),
             at);
    return std::nullopt;
}

}  // namespace pinfold
