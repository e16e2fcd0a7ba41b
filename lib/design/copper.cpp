#include "design/copper.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <unordered_map>

#include "base/spelling.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

/// Things that may be one piece of copper: contacts, then names.
class Pieces {
public:
    explicit Pieces(std::size_t contacts) : parent_(contacts) {
        std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    }
    std::size_t add() {
        parent_.push_back(parent_.size());
        return parent_.size() - 1;
    }
    std::size_t root(std::size_t one) {
        while (parent_[one] != one) one = parent_[one] = parent_[parent_[one]];
        return one;
    }
    void join(std::size_t one, std::size_t other) { parent_[root(other)] = root(one); }

private:
    std::vector<std::size_t> parent_;
};

/// A name that copper answers to: what it is called and which signal it is.
struct Named {
    std::size_t piece = 0;
    Net net;
};

class CopperReader {
public:
    CopperReader(Board& board, const std::vector<WrittenPort>& written, bool separate_grounds,
                 ReaderDesk& desk)
        : board_(board),
          written_(written),
          separate_grounds_(separate_grounds),
          desk_(desk),
          pieces_(count_contacts(board)) {
        std::size_t first = 0;
        for (const Port& port : board_.ports) {
            first_.push_back(first);
            port_places_.try_emplace(port.name, first_.size() - 1);
            first += port.contacts.size();
        }
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
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
        make_nets();
    }

    void set_sizes(const std::vector<WrittenSize>& sizes,
                   std::optional<Millimetres> Net::*of_trace) {
        for (const WrittenSize& written : sizes) {
            const Named* named = find_name(written.signal, written.at);
            const auto net =
                named ? net_of_piece_.find(pieces_.root(named->piece)) : net_of_piece_.end();
            if (net != net_of_piece_.end()) {
                board_.nets[net->second].*of_trace = written.size;
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
    static std::size_t count_contacts(const Board& board) {
        std::size_t count = 0;
        for (const Port& port : board.ports) count += port.contacts.size();
        return count;
    }

    bool is_by_table(std::size_t port) const {
        return !board_.ports[port].connector.empty() && written_[port].wired.empty() &&
               !written_[port].like && !board_.ports[port].best;
    }

    const Interface& interface_of(std::size_t port) const {
        return desk_.design.interfaces.at(board_.ports[port].interface);
    }

    Named& named(const std::string& key, const Net& net) {
        const auto [found, is_new] = names_.try_emplace(key);
        if (is_new) found->second = Named{pieces_.add(), net};
        return found->second;
    }

    Named& ground(const Mark& at) { return named("ground", Net{"GND", true, {}, {}, {}, at}); }

    /// The copper of a signal that a connector wired by its table bears.
    Named& table_name(std::size_t port, std::size_t signal, const Mark& at) {
        const Interface& interface = interface_of(port);
        const Signal& told = interface.signals[signal];
        const bool is_any_ground = is_ground(told.role);
        if (is_any_ground && (!separate_grounds_ || told.role == Role::ground)) return ground(at);
        const std::string key = fmt::format("{}.{}", port, told.name);
        return named(key, Net{told.name, is_any_ground, interface.id, signal, {}, at});
    }

    void wire_by_table(std::size_t p) {
        Port& port = board_.ports[p];
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            const PortContact& contact = port.contacts[i];
            if (!contact.signal) continue;
            if (interface_of(p).signals[*contact.signal].role == Role::unused) continue;
            use(table_name(p, *contact.signal, contact.at), p, i);
        }
    }

    void use(Named& name, std::size_t port, std::size_t contact) {
        pieces_.join(name.piece, first_[port] + contact);
        wired_.push_back(first_[port] + contact);
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
            if (match && bears(*other, *match)) use(table_name(*other, *match, at), p, i);
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
        if (Named* name = find_name(text, at)) {
            use(*name, p, i);
        } else if (const auto other = find_place(text, at)) {
            pieces_.join(*other, first_[p] + i);
            wired_.push_back(*other);
            wired_.push_back(first_[p] + i);
        } else if (!is_place_text(text)) {
            use(own_name(text, at), p, i);
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
        if (contact) return first_[port] + *contact;
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
    Named* find_name(const std::string& text, const Mark& at) {
        const std::vector<Bearers> bearers = bearers_of(text);
        const bool is_one = bearers.size() == 1 && bearers[0].ports->size() == 1;
        if (is_one) return &table_name(bearers[0].ports->front(), bearers[0].signal, at);
        if (!bearers.empty() && !is_shared_ground(bearers)) {
            doubt(text, bearers, at);
            return &named("doubt " + text, Net{text, false, {}, {}, {}, at});
        }
        if (!bearers.empty() || is_general_ground(text)) return &ground(at);
        const auto own = names_.find(own_key(text));
        return own == names_.end() ? nullptr : &own->second;
    }

    /// The interface of a connector here that knows the name, though none is wired by its table.
    const Interface* interface_knowing(const std::string& text) const {
        const auto known = std::ranges::find_if(
            spoken_, [&](const Interface* interface) { return interface->find(text).has_value(); });
        return known == spoken_.end() ? nullptr : *known;
    }

    std::string own_key(const std::string& text) const {
        const Interface* interface = interface_knowing(text);
        return "own " +
               (interface ? interface->signals[*interface->find(text)].name : plain_name(text));
    }

    /// A name of the board's own: the signal of a connector whose contacts are listed one by one,
    /// or no signal that anybody knows.
    Named& own_name(const std::string& text, const Mark& at) {
        const Interface* interface = interface_knowing(text);
        if (!interface) return named(own_key(text), Net{text, false, {}, {}, {}, at});
        const std::size_t signal = *interface->find(text);
        const Signal& told = interface->signals[signal];
        if (is_ground(told.role) && !separate_grounds_) return ground(at);
        return named(own_key(text),
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
        std::map<std::size_t, std::set<std::size_t>> contacts;
        for (const std::size_t contact : wired_) contacts[pieces_.root(contact)].insert(contact);
        for (const auto& [key, name] : names_) {
            if (!key.starts_with("own ") || contacts[pieces_.root(name.piece)].size() > 1) continue;
            complain(desk_.findings, "signal-alone",
                     fmt::format("'{}' stands on this contact alone: no connector here bears it "
                                 "and no other contact names it{}; a contact that is wired to "
                                 "nothing is 'open'",
                                 name.net.name, did_you_mean(name.net.name, known_names())),
                     name.net.at);
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

    void make_nets() {
        std::ranges::sort(wired_);
        for (const std::size_t contact : wired_) {
            const auto [net, is_new] =
                net_of_piece_.try_emplace(pieces_.root(contact), board_.nets.size());
            if (is_new) board_.nets.emplace_back();
        }
        name_nets();
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            for (std::size_t i = 0; i < board_.ports[p].contacts.size(); ++i) {
                const auto net = net_of_piece_.find(pieces_.root(first_[p] + i));
                if (net == net_of_piece_.end()) continue;
                PortContact& contact = board_.ports[p].contacts[i];
                contact.net = net->second;
                if (contact.name.empty()) contact.name = board_.nets[net->second].name;
            }
        }
    }

    /// Ground first, then signals of connectors, then the board's own names; a name two nets would
    /// share is told apart by the port it stands on.
    void name_nets() {
        std::map<std::string, std::size_t> taken;
        const auto give = [&](const std::string& prefix, bool by_port) {
            for (const auto& [key, name] : names_) {
                if (by_port ? !is_table_key(key) : !key.starts_with(prefix)) continue;
                const auto found = net_of_piece_.find(pieces_.root(name.piece));
                if (found == net_of_piece_.end()) continue;
                Net& net = board_.nets[found->second];
                if (!net.name.empty()) continue;
                net = name.net;
                if (!taken.emplace(net.name, found->second).second && by_port) {
                    const std::size_t port = std::stoul(key.substr(0, key.find('.')));
                    net.name = fmt::format("{}.{}", board_.ports[port].name, net.name);
                }
            }
        };
        give("ground", false);
        give({}, true);
        give("own ", false);
        give("doubt ", false);
        name_the_rest();
    }

    static bool is_table_key(const std::string& key) {
        return key.front() >= '0' && key.front() <= '9';
    }

    /// Copper that only `port.contact` entries name is called after its first contact.
    void name_the_rest() {
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            for (std::size_t i = 0; i < board_.ports[p].contacts.size(); ++i) {
                const auto found = net_of_piece_.find(pieces_.root(first_[p] + i));
                if (found == net_of_piece_.end()) continue;
                Net& net = board_.nets[found->second];
                if (!net.name.empty()) continue;
                const PortContact& contact = board_.ports[p].contacts[i];
                net.name = fmt::format("{}.{}", board_.ports[p].name, contact.label);
                net.at = contact.at;
            }
        }
    }

    Board& board_;
    const std::vector<WrittenPort>& written_;
    bool separate_grounds_;
    ReaderDesk& desk_;
    Pieces pieces_;
    std::vector<std::size_t> first_;
    std::unordered_map<std::string, std::size_t> port_places_;
    std::vector<const Interface*> spoken_;  ///< the interfaces of connectors, each once
    /// The ports wired by their pin table, by connector and gender.
    std::map<std::pair<std::string, Gender>, std::vector<std::size_t>> tables_;
    std::vector<std::size_t> wired_;
    std::map<std::string, Named> names_;
    std::map<std::size_t, std::size_t> net_of_piece_;
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
