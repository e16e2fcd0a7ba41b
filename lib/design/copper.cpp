#include "design/copper.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "base/spelling.hpp"
#include "design/board_copper.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

class CopperReader {
public:
    CopperReader(Board& board, const std::vector<WrittenPort>& written, bool separate_grounds,
                 ReaderDesk& desk)
        : board_(board),
          written_(written),
          separate_grounds_(separate_grounds),
          desk_(desk),
          copper_(board) {
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            port_places_.try_emplace(board_.ports[p].name, p);
            if (board_.ports[p].connector.empty()) continue;
            const Interface* interface = &interface_of(p);
            if (std::ranges::find(spoken_, interface) == spoken_.end())
                spoken_.push_back(interface);
            if (!is_by_table(p)) continue;
            tables_[{board_.ports[p].connector, board_.ports[p].gender}].push_back(p);
        }
    }

    void read() {
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            board_.ports[p].by_table = is_by_table(p);
            if (is_by_table(p)) wire_by_table(p);
        }
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            if (written_[p].like) wire_like(p);
            for (std::size_t i = 0; i < written_[p].wired.size(); ++i) wire_entry(p, i);
        }
        require_company();
        copper_.make_nets();
    }

    void set_sizes(const std::vector<WrittenSize>& sizes,
                   std::optional<Millimetres> Net::*of_trace) {
        for (const WrittenSize& written : sizes) {
            const NamedCopper* named = find_name(written.signal, written.at);
            if (const auto net = named ? copper_.net_of(*named) : std::nullopt) {
                board_.nets[*net].*of_trace = written.size;
                continue;
            }
            std::vector<std::string> known;
            for (const Net& any : board_.nets) known.push_back(any.name);
            complain(desk_.findings, "signal-unknown",
                     fmt::format("no net '{}' on this board{}", written.signal,
                                 did_you_mean(written.signal, known)),
                     written.at);
        }
    }

private:
    bool is_by_table(std::size_t port) const {
        return !board_.ports[port].connector.empty() && written_[port].wired.empty() &&
               !written_[port].like && !board_.ports[port].best;
    }

    const Interface& interface_of(std::size_t port) const {
        return desk_.design.interfaces.at(board_.ports[port].interface);
    }

    NamedCopper& ground(const Mark& at) {
        return copper_.named({}, Net{"GND", true, {}, {}, {}, at});
    }

    /// The copper of a signal that a connector wired by its table bears.
    NamedCopper& table_name(std::size_t port, std::size_t signal, const Mark& at) {
        const Interface& interface = interface_of(port);
        const Signal& told = interface.signals[signal];
        const bool is_any_ground = is_ground(told.role);
        if (is_any_ground && (!separate_grounds_ || told.role == Role::ground)) return ground(at);
        return copper_.named({CopperNameKind::table, port, told.name},
                             Net{told.name, is_any_ground, interface.id, signal, {}, at});
    }

    void wire_by_table(std::size_t p) {
        Port& port = board_.ports[p];
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            const PortContact& contact = port.contacts[i];
            if (!contact.signal) continue;
            if (interface_of(p).signals[*contact.signal].role == Role::unused) continue;
            copper_.wire(copper_.place(p, i), table_name(p, *contact.signal, contact.at));
        }
    }

    /// Every contact joined to the contacts of another port that bear the same signal.
    void wire_like(std::size_t p) {
        const auto& [text, at] = *written_[p].like;
        const std::optional<std::size_t> other = board_.find_port(text);
        const bool usable =
            other && *other != p && is_by_table(*other) && !board_.ports[p].connector.empty();
        if (!usable) {
            complain(desk_.findings, "copper-like",
                     fmt::format("'like: {}' must name another connector of this board that is "
                                 "wired by its pin table",
                                 text),
                     at);
            return;
        }
        const Interface& here = interface_of(p);
        const Interface& there = interface_of(*other);
        Port& port = board_.ports[p];
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            if (!port.contacts[i].signal) continue;
            const Signal& signal = here.signals[*port.contacts[i].signal];
            const auto match = there.find(signal.name);
            if (!match || !bears(*other, *match)) continue;
            copper_.wire(copper_.place(p, i), table_name(*other, *match, at));
        }
    }

    bool bears(std::size_t port, std::size_t signal) const {
        return std::ranges::any_of(board_.ports[port].contacts, [&](const PortContact& contact) {
            return contact.signal == signal;
        });
    }

    void wire_entry(std::size_t p, std::size_t i) {
        const auto& [text, at] = written_[p].wired[i];
        PortContact& contact = board_.ports[p].contacts[i];
        contact.at = at;
        contact.name.clear();
        if (text.empty() || text == "open") {
            contact.signal.reset();
            return;
        }
        const std::size_t place = copper_.place(p, i);
        if (const NamedCopper* name = find_name(text, at)) {
            copper_.wire(place, *name);
        } else if (const auto other = find_place(text, at)) {
            copper_.wire(place, *other);
        } else if (!is_place_text(text)) {
            copper_.wire(place, own_name(text, at));
        }
    }

    /// `port.something` with a port of this board in front.
    bool is_place_text(const std::string& text) const {
        const std::size_t dot = text.find('.');
        return dot != std::string::npos && port_places_.contains(text.substr(0, dot));
    }

    std::optional<std::size_t> find_place(const std::string& text, const Mark& at) {
        if (!is_place_text(text)) return std::nullopt;
        const std::size_t dot = text.find('.');
        const std::size_t port = port_places_.at(text.substr(0, dot));
        const Port& there = board_.ports[port];
        const Interface* interface = there.interface.empty() ? nullptr : &interface_of(port);
        const auto contact = find_contact(there, interface, text.substr(dot + 1));
        if (contact) return copper_.place(port, *contact);
        std::vector<std::string> known;
        for (const PortContact& any : there.contacts) {
            known.push_back(any.label);
            if (!any.name.empty()) known.push_back(any.name);
        }
        complain(desk_.findings, "contact-unknown",
                 fmt::format("{} has no contact or signal '{}'{}", there.name, text.substr(dot + 1),
                             did_you_mean(text.substr(dot + 1), known)),
                 at);
        return std::nullopt;
    }

    /// Connectors of one kind that bear a signal.
    struct Bearers {
        const std::vector<std::size_t>* ports;
        std::size_t signal;
    };

    std::vector<Bearers> bearers_of(const std::string& text) const {
        const std::string plain = plain_name(text);
        std::vector<Bearers> bearers;
        for (const auto& [table, ports] : tables_) {
            const Interface& interface = interface_of(ports.front());
            const auto signal = interface.names.find(plain);
            if (signal == interface.names.end() || !bears(ports.front(), signal->second)) continue;
            if (interface.signals[signal->second].role == Role::unused) continue;
            bearers.push_back({&ports, signal->second});
        }
        return bearers;
    }

    /// The copper a bare name means: a ground, or a signal that one connector bears. Two
    /// connectors that bear it leave the name open to doubt.
    NamedCopper* find_name(const std::string& text, const Mark& at) {
        const std::vector<Bearers> bearers = bearers_of(text);
        const bool is_one = bearers.size() == 1 && bearers[0].ports->size() == 1;
        if (is_one) return &table_name(bearers[0].ports->front(), bearers[0].signal, at);
        if (!bearers.empty() && !is_shared_ground(bearers)) {
            doubt(text, bearers, at);
            return &copper_.named({CopperNameKind::doubt, 0, text},
                                  Net{text, false, {}, {}, {}, at});
        }
        if (!bearers.empty() || is_general_ground(text)) return &ground(at);
        return copper_.find(own(text));
    }

    /// The interface of a connector here that knows the name, though none is wired by its table.
    const Interface* interface_knowing(const std::string& text) const {
        const auto known = std::ranges::find_if(
            spoken_, [&](const Interface* interface) { return interface->find(text).has_value(); });
        return known == spoken_.end() ? nullptr : *known;
    }

    CopperName own(const std::string& text) const {
        const Interface* interface = interface_knowing(text);
        return {CopperNameKind::own, 0,
                interface ? interface->signals[*interface->find(text)].name : plain_name(text)};
    }

    /// A name of the board's own: the signal of a connector whose contacts are listed one by one,
    /// or no signal that anybody knows.
    NamedCopper& own_name(const std::string& text, const Mark& at) {
        const Interface* interface = interface_knowing(text);
        if (!interface) return copper_.named(own(text), Net{text, false, {}, {}, {}, at});
        const std::size_t signal = *interface->find(text);
        const Signal& told = interface->signals[signal];
        if (is_ground(told.role) && !separate_grounds_) return ground(at);
        return copper_.named(own(text),
                             Net{told.name, is_ground(told.role), interface->id, signal, {}, at});
    }

    void doubt(const std::string& text, const std::vector<Bearers>& bearers, const Mark& at) {
        constexpr std::size_t most_choices = 8;
        std::set<std::size_t> ports;
        for (const Bearers& some : bearers) {
            const auto first = some.ports->begin();
            ports.insert(first, first + static_cast<std::ptrdiff_t>(
                                            std::min(some.ports->size(), most_choices)));
        }
        std::vector<std::string> choices;
        for (const std::size_t p : ports) {
            if (choices.size() == most_choices) break;
            choices.push_back(fmt::format("{}.{}", board_.ports[p].name, text));
        }
        complain(desk_.findings, "signal-doubtful",
                 fmt::format("'{}' stands on more than one connector of this board; write one "
                             "of: {}",
                             text, fmt::join(choices, ", ")),
                 at);
    }

    bool is_shared_ground(const std::vector<Bearers>& bearers) const {
        return !separate_grounds_ && std::ranges::all_of(bearers, [&](const Bearers& some) {
            return is_ground(interface_of(some.ports->front()).signals[some.signal].role);
        });
    }

    bool is_general_ground(const std::string& text) const {
        const Interface& plain = desk_.library.interface("plain", board_.at);
        const auto signal = plain.find(text);
        return signal && is_ground(plain.signals[*signal].role);
    }

    /// A name of the board's own that stands on one contact alone is a slip of the pen.
    void require_company() {
        if (board_.ports.size() < 2) return;
        for (const NamedCopper* name : copper_.alone()) {
            complain(desk_.findings, "signal-alone",
                     fmt::format("'{}' stands on this contact alone: no connector here bears it "
                                 "and no other contact names it{}; a contact that is wired to "
                                 "nothing is 'open'",
                                 name->net.name, did_you_mean(name->net.name, known_names())),
                     name->net.at);
        }
    }

    std::vector<std::string> known_names() const {
        std::vector<std::string> known{"open"};
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            if (!is_by_table(p)) continue;
            for (const Signal& signal : interface_of(p).signals) known.push_back(signal.name);
        }
        return known;
    }

    Board& board_;
    const std::vector<WrittenPort>& written_;
    bool separate_grounds_;
    ReaderDesk& desk_;
    BoardCopper copper_;
    std::unordered_map<std::string, std::size_t> port_places_;
    std::vector<const Interface*> spoken_;  ///< the interfaces of connectors, each once
    /// The ports wired by their pin table, by connector and gender.
    std::map<std::pair<std::string, Gender>, std::vector<std::size_t>> tables_;
};

}  // namespace

void lay_copper(Board& board, const std::vector<WrittenPort>& written, const WrittenTraces& traces,
                bool separate_grounds, ReaderDesk& desk) {
    CopperReader reader(board, written, separate_grounds, desk);
    reader.read();
    reader.set_sizes(traces.lengths, &Net::length);
    reader.set_sizes(traces.widths, &Net::width);
}

}  // namespace pinfold
