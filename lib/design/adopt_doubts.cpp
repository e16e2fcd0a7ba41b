#include "design/adopt_doubts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "design/adopt_names.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

/// Looks an adopted board over.
class Doubter {
public:
    Doubter(Adoption& adoption, const Netlist& drawn, Library& library)
        : adoption_(adoption), drawn_(drawn), library_(library) {}

    /// Nets whose names mean another signal than the contact they lie on.
    void tell_names() {
        for (const AdoptedPort& port : adoption_.ports) {
            if (!port.interface) continue;
            std::vector<std::string> unknown;
            for (const AdoptedContact& contact : port.contacts) {
                if (contact.net == no_net || !contact.signal) continue;
                const std::string name = meant_name(drawn_.nets[contact.net].name);
                if (!name.empty()) tell_name(port, contact, name, unknown);
            }
            if (unknown.empty()) continue;
            doubt(Severity::note, "adopt-name",
                  fmt::format("{}: net names that are no signals of {}: {}", port.reference,
                              port.connector, names_in_sentence(unknown)),
                  port.at);
        }
    }

    void tell_name(const AdoptedPort& port, const AdoptedContact& contact, const std::string& name,
                   std::vector<std::string>& unknown) {
        const Interface& interface = *port.interface;
        const Signal& signal = interface.signals[*contact.signal];
        const auto meant = meant_signal(interface, name);
        if (!meant) {
            const Interface& plain = library_.interface("plain", {});
            const auto general = plain.find(name);
            const bool both_ground =
                general && is_ground(plain.signals[*general].role) && is_ground(signal.role);
            const std::string told =
                fmt::format("'{}' on {} ({})", name, contact.label, signal.name);
            if (!both_ground) unknown.push_back(told);
            return;
        }
        const Signal& other = interface.signals[*meant];
        if (*meant == *contact.signal || (is_ground(other.role) && is_ground(signal.role))) return;
        doubt(Severity::warning, "adopt-name",
              fmt::format("net '{}' lies on {}.{}, which bears {} by the pin map of {}, not {}",
                          drawn_.nets[contact.net].name, port.reference, contact.label, signal.name,
                          port.connector, other.name),
              contact.at);
    }

    /// Contacts that reach no other one.
    void tell_open() {
        std::map<std::size_t, std::size_t> contacts_on;
        for (const AdoptedPort& port : adoption_.ports) {
            for (const AdoptedContact& contact : port.contacts) ++contacts_on[contact.net];
        }
        for (const AdoptedPort& port : adoption_.ports) {
            std::vector<std::string> open;
            for (const AdoptedContact& contact : port.contacts) {
                if (contact.absent || (contact.net != no_net && contacts_on[contact.net] > 1)) {
                    continue;
                }
                open.push_back(contact.signal
                                   ? fmt::format("{} ({})", contact.label,
                                                 port.interface->signals[*contact.signal].name)
                                   : contact.label);
            }
            if (open.empty()) continue;
            doubt(Severity::note, "adopt-open",
                  fmt::format("{}: joined to no other contact: {}", port.reference,
                              names_in_sentence(open)),
                  port.at);
        }
    }

    void tell_split_ground() {
        for (const AdoptedPort& port : adoption_.ports) {
            std::vector<std::string> apart;
            for (const AdoptedContact& contact : port.contacts) {
                if (contact.absent || !bears_ground(port, contact)) continue;
                if (contact.net != adoption_.ground || contact.net == no_net) {
                    apart.push_back(contact.label);
                }
            }
            if (apart.empty()) continue;
            doubt(Severity::warning, "adopt-ground",
                  fmt::format("{}: ground contacts that do not lie on the board's ground: {}",
                              port.reference, names_in_sentence(apart)),
                  port.at);
        }
    }

private:
    void doubt(Severity severity, const char* rule, std::string text, const Mark& at) {
        adoption_.doubts.push_back({severity, rule, std::move(text), at});
    }

    Adoption& adoption_;
    const Netlist& drawn_;
    Library& library_;
};

}  // namespace

std::string names_in_sentence(const std::vector<std::string>& names) {
    constexpr std::size_t most_told = 12;
    std::vector<std::string> told(
        names.begin(),
        names.begin() + static_cast<std::ptrdiff_t>(std::min(names.size(), most_told)));
    if (names.size() > most_told) told.push_back(fmt::format("{} more", names.size() - most_told));
    return fmt::format("{}", fmt::join(told, ", "));
}

bool bears_ground(const AdoptedPort& port, const AdoptedContact& contact) {
    return contact.signal && is_ground(port.interface->signals[*contact.signal].role);
}

void tell_doubts(Adoption& adoption, const Netlist& drawn, Library& library) {
    Doubter doubter(adoption, drawn, library);
    doubter.tell_names();
    doubter.tell_open();
    doubter.tell_split_ground();
}

}  // namespace pinfold
