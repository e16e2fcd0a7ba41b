#include "check/givers.hpp"

#include <fmt/format.h>

#include <map>
#include <set>

namespace pinfold {
namespace {

/// Which ports give which supply, told by the promises.
class Givers {
public:
    explicit Givers(const Design& design) : design_(design) {
        for (const Carry& carry : design.carries) {
            if (carry.supply.empty()) {
                near_.insert(carry.from);
                far_.insert(carry.to);
            } else {
                const Interface* near = design.interface_of(design.port(carry.from));
                const auto signal = near ? near->find(carry.supply) : std::nullopt;
                if (signal) feeds_.insert({carry.from, *signal});
            }
        }
    }

    bool gives(const ContactRef& contact) const {
        const Signal* signal = design_.signal_of(contact);
        if (!signal || signal->role != Role::supply) return false;
        if (signal->direction == Direction::outward) return true;
        if (feeds_.contains({contact.port, *design_.contact(contact).signal})) return true;
        if (near_.contains(contact.port)) return signal->direction == Direction::forward;
        return far_.contains(contact.port) && signal->direction == Direction::back;
    }

private:
    const Design& design_;
    std::set<PortRef> near_, far_;
    std::set<std::pair<PortRef, std::size_t>> feeds_;
};

}  // namespace

Findings check_givers(const Design& design, const Wiring& wiring) {
    const Givers givers(design);
    Findings findings;
    for (std::uint32_t piece = 0; piece < wiring.pieces(); ++piece) {
        std::map<PortRef, ContactRef> giving;
        for (const ContactRef& contact : wiring.device_contacts(piece)) {
            if (givers.gives(contact)) giving.try_emplace(contact.port, contact);
        }
        if (giving.size() < 2) continue;
        const ContactRef& one = giving.begin()->second;
        const ContactRef& other = std::next(giving.begin())->second;
        findings.push_back(
            {Severity::error,
             "supplies-joined",
             fmt::format("{} and {} both give a supply and are joined", name_of(design, one),
                         name_of(design, other)),
             design.contact(one).at,
             {{design.contact(other).at, "the other supply is here"}},
             {name_of(design, one.port), name_of(design, one), name_of(design, other)},
             {}});
    }
    return findings;
}

}  // namespace pinfold
