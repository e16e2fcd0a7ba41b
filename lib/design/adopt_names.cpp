#include "design/adopt_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/utf8.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

/// Gives names that the reader of board files takes for one net each.
class NetNamer {
public:
    NetNamer(Adoption& adoption, const Netlist& drawn, Library& library, NetNaming naming)
        : adoption_(adoption),
          drawn_(drawn),
          plain_(library.interface("plain", {})),
          by_signal_(naming == NetNaming::by_signal) {
        for (const AdoptedPort& port : adoption_.ports) {
            if (port.interface) spoken_.push_back(port.interface);
            for (const AdoptedContact& contact : port.contacts) ++contacts_on_[contact.net];
        }
    }

    void name() {
        for (AdoptedPort& port : adoption_.ports) {
            port.by_table = by_signal_ && is_as_its_table(port);
            if (port.by_table) own_nets(port);
        }
        for (AdoptedPort& port : adoption_.ports) {
            for (AdoptedContact& contact : port.contacts) contact.wired = entry(contact);
        }
    }

private:
    static Role role_of(const AdoptedPort& port, const AdoptedContact& contact) {
        return contact.signal ? port.interface->signals[*contact.signal].role : Role::unused;
    }

    /// Whether the reader lays a signal of this role on the board's ground.
    bool is_on_ground(Role role) const {
        return adoption_.separate_grounds ? role == Role::ground : is_ground(role);
    }

    bool is_alone(std::size_t net) const {
        return net == no_net || (net != adoption_.ground && contacts_on_.at(net) == 1);
    }

    /// Whether the netlist joins the contacts of a connector as its pin table does.
    bool is_as_its_table(const AdoptedPort& port) const {
        if (port.connector.empty()) return false;
        std::map<std::size_t, std::size_t> net_of, signal_on;
        for (const AdoptedContact& contact : port.contacts) {
            if (!is_as_its_table(port, contact, net_of, signal_on)) return false;
        }
        return true;
    }

    bool is_as_its_table(const AdoptedPort& port, const AdoptedContact& contact,
                         std::map<std::size_t, std::size_t>& net_of,
                         std::map<std::size_t, std::size_t>& signal_on) const {
        const Role role = role_of(port, contact);
        if (contact.absent || role == Role::unused) return is_alone(contact.net);
        if (is_on_ground(role)) return contact.net != no_net && contact.net == adoption_.ground;
        const auto [known, is_new] = net_of.try_emplace(*contact.signal, contact.net);
        if (!is_new) return contact.net != no_net && known->second == contact.net;
        if (contact.net == no_net) return true;
        return contact.net != adoption_.ground && !owner_.contains(contact.net) &&
               signal_on.try_emplace(contact.net, *contact.signal).second;
    }

    void own_nets(const AdoptedPort& port) {
        for (const AdoptedContact& contact : port.contacts) {
            const bool is_signal = contact.net != no_net && contact.net != adoption_.ground &&
                                   role_of(port, contact) != Role::unused;
            if (is_signal) owner_.try_emplace(contact.net, &port, &contact);
        }
    }

    std::string entry(const AdoptedContact& contact) {
        if (contact.absent || contact.net == no_net) return "open";
        if (contact.net == adoption_.ground) return "GND";
        const auto [named, is_new] = names_.try_emplace(contact.net);
        if (is_new) named->second = fresh_name(contact.net);
        return named->second;
    }

    std::string fresh_name(std::size_t net) {
        if (const auto owner = owner_.find(net); owner != owner_.end()) {
            return owned_name(*owner->second.first, *owner->second.second);
        }
        if (contacts_on_.at(net) == 1) return "open";
        if (by_signal_) {
            for (const std::string& wish : wishes(net)) {
                if (is_free(wish)) return wish;
            }
        }
        std::string made;
        do made = fmt::format("net-{}", ++made_up_);
        while (!is_free(made));
        return made;
    }

    /// A signal of a connector wired by its table: its name if no other such connector knows it.
    std::string owned_name(const AdoptedPort& port, const AdoptedContact& contact) const {
        const std::string& name = port.interface->signals[*contact.signal].name;
        const auto knowing = std::ranges::count_if(adoption_.ports, [&](const AdoptedPort& any) {
            return any.by_table && any.interface->find(name);
        });
        if (knowing == 1 && name.find('.') == std::string::npos && name != "open") return name;
        return fmt::format("{}.{}", port.name, contact.label);
    }

    std::vector<std::string> wishes(std::size_t net) const {
        std::vector<std::string> wishes;
        for (const AdoptedPort& port : adoption_.ports) {
            for (const AdoptedContact& contact : port.contacts) {
                if (contact.net != net || !contact.signal) continue;
                wishes.push_back(port.interface->signals[*contact.signal].name);
            }
        }
        wishes.push_back(meant_name(drawn_.nets[net].name));
        return wishes;
    }

    /// Whether the reader would take `name` for a net of the board's own that no other entry means.
    bool is_free(const std::string& name) {
        constexpr std::size_t longest = 60;
        const std::string plain = plain_name(name);
        if (name.size() > longest || plain.empty() || plain == "open" || first_control(name) ||
            is_place(name)) {
            return false;
        }
        const auto general = plain_.find(name);
        if (general && is_ground(plain_.signals[*general].role)) return false;
        for (const AdoptedPort& port : adoption_.ports) {
            if (port.by_table && port.interface->find(name)) return false;
        }
        std::string key = plain;
        for (const Interface* interface : spoken_) {
            const auto signal = interface->find(name);
            if (!signal) continue;
            if (is_on_ground(interface->signals[*signal].role)) return false;
            key = interface->signals[*signal].name;
            break;
        }
        return keys_.insert(key).second;
    }

    bool is_place(const std::string& name) const {
        const std::size_t dot = name.find('.');
        if (dot == std::string::npos) return false;
        return std::ranges::any_of(adoption_.ports, [&](const AdoptedPort& port) {
            return port.name == name.substr(0, dot);
        });
    }

    Adoption& adoption_;
    const Netlist& drawn_;
    const Interface& plain_;
    bool by_signal_;
    std::vector<const Interface*> spoken_;
    std::map<std::size_t, std::size_t> contacts_on_;
    /// Nets that a connector wired by its table gives a name, with the first contact on each.
    std::map<std::size_t, std::pair<const AdoptedPort*, const AdoptedContact*>> owner_;
    std::map<std::size_t, std::string> names_;
    std::set<std::string> keys_;
    int made_up_ = 0;
};

}  // namespace

std::string meant_name(std::string_view drawn) {
    if (const std::size_t slash = drawn.rfind('/'); slash != std::string_view::npos) {
        drawn.remove_prefix(slash + 1);
    }
    for (const std::string_view made_up : {"Net-(", "unconnected-(", "no_connect_", "N-", "N$"}) {
        if (drawn.starts_with(made_up)) return {};
    }
    return std::string(drawn);
}

std::optional<std::size_t> meant_signal(const Interface& interface, const std::string& name) {
    if (const auto found = interface.find(name)) return found;
    for (std::size_t at = name.find('_'); at != std::string::npos; at = name.find('_', at + 1)) {
        if (const auto found = interface.find(std::string_view(name).substr(at + 1))) return found;
    }
    return std::nullopt;
}

void name_nets(Adoption& adoption, const Netlist& drawn, Library& library, NetNaming naming) {
    NetNamer(adoption, drawn, library, naming).name();
}

}  // namespace pinfold
