// What those who think of faults need at hand: the design, its links by where they are.
#pragma once

#include <optional>
#include <utility>

#include "bringup/fault.hpp"
#include "bringup/sites.hpp"

namespace pinfold {

/// Finds the links of the wiring by their places, and takes the faults down.
class FaultDesk {
public:
    FaultDesk(const Design& design, const Wiring& wiring);

    const Design& design;
    const Wiring& wiring;
    const Pieces pieces;
    std::vector<Fault> faults;

    /// The link from a board's contact to its net.
    std::optional<std::uint32_t> copper_at(const ContactRef& contact) const;
    /// The links between a ribbon's end and its receptacle, by conductor; nothing where none is.
    const std::vector<std::optional<std::uint32_t>>& seats_at(std::size_t ribbon, End end) const;
    std::uint32_t conductor_at(std::size_t ribbon, ConductorNumber conductor) const;
    /// How many contacts a net joins.
    int contacts_on(Point net) const { return on_net_[net]; }

    /// The change that gives contact `to[i].first` the copper of `to[i].second`.
    Change rewired(const std::vector<std::pair<ContactRef, ContactRef>>& to) const;
    /// `strap.3 (D2-)`: the signal as the port of end a has it.
    std::string spoken(std::size_t ribbon, ConductorNumber conductor) const;
    std::string place_of(std::size_t ribbon, ConductorNumber conductor) const;

    bool both_ends_sit(std::size_t ribbon) const;

private:
    std::vector<std::uint32_t> copper_;  ///< by point, one more than the link
    std::vector<std::uint32_t> conductor_;
    std::vector<int> on_net_;
    std::vector<std::vector<std::optional<std::uint32_t>>> seats_[2];
};

/// What a contact is to carry: an interface's id and a signal in it.
struct Bearing {
    std::string interface;
    std::size_t signal = 0;
};
std::optional<Bearing> bearing_of(const Design& design, const ContactRef& contact);

void think_of_ribbon_faults(FaultDesk& desk);
void think_of_row_faults(FaultDesk& desk);
void think_of_pair_faults(FaultDesk& desk);
void think_of_opens(FaultDesk& desk);
void think_of_bridges(FaultDesk& desk);
void think_of_exchanges(FaultDesk& desk);

}  // namespace pinfold
