// Feeds: the current in every conductor, contact and lead on a supply's way, and what arrives.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "check/feed_loads.hpp"
#include "check/supply_system.hpp"
#include "physics/network.hpp"

namespace pinfold {

/// The current that one link of the wiring carries, all loads together.
struct LinkLoad {
    std::size_t link = 0;  ///< in the wiring's links
    Amperes current;
    Ohms resistance;

    Watts heat() const { return Watts(current.value() * current.value() * resistance.value()); }
};

/// What one supply does on its way: from the giver to the taker and back through ground.
struct Feed {
    std::size_t carry = 0;
    std::string supply;
    Amperes current;             ///< drawn at the taker
    std::optional<Watts> power;  ///< of a converter there
    bool settles = true;         ///< no: the converter asks more than the way can bring
    Watts deliverable;           ///< the most it could have, if it does not settle
    Volts drop_out, drop_back;   ///< the second is what the ground shifts
    std::optional<Volts> given;  ///< at the giver, at the least
    std::optional<Volts> arriving;
    std::optional<Volts> least;  ///< that the taker must see
    std::optional<Volts> most;   ///< that it stands
    std::string window_source;
};

/// What one port gives of one supply, to all loads together.
struct FeedSource {
    std::size_t carry = 0;  ///< the first promise of it
    Volts voltage;
    Amperes current;
};

struct Feeds {
    std::vector<Feed> feeds;
    std::vector<FeedSource> sources;
    std::vector<LinkLoad> loads;
    Findings remarks;  ///< supplies whose current nobody states
};

/// What a case has in place of what the promises state.
struct FeedCase {
    std::map<std::size_t, Watts> power;    ///< drawn at the far end, by promise
    std::map<std::size_t, Volts> voltage;  ///< given, by promise
    std::optional<std::size_t> open;       ///< a link that makes no contact
};

/// The resistive networks of all supplies that arrive, with their returns through all grounds that
/// their boards share. Networks that no load, source or link joins are solved apart.
///
/// Resistances: link_resistance.hpp; all grounds of one device are one
/// plane, and so are one supply's contacts of one of its ports. A supply whose voltage is known is
/// a source of that voltage; one that is not gives what its promises draw.
class FeedNetworks {
public:
    /// The design and the wiring must outlive it.
    FeedNetworks(const Design& design, const Wiring& wiring);

    const std::vector<FeedLoad>& loads() const { return loads_.loads; }
    std::size_t size() const { return parts_.size(); }
    /// The loads of a network, in the order that its own solution has them.
    const std::vector<std::size_t>& loads_of(std::size_t part) const { return parts_[part].loads; }

    /// Solves all networks, or one.
    Feeds solve(const FeedCase& with = {}) const;
    Feeds solve(std::size_t part, const FeedCase& with = {}) const;

    /// Whether each load of a network still hangs together with its source once a link is open.
    bool holds_together(std::size_t part, std::size_t open) const;

    /// The current of each link when one ampere runs from a load's giver to its taker and back;
    /// times drop over current, the share that a link has in the load's drop.
    std::vector<LinkLoad> unit_flow(std::size_t load) const;

private:
    /// One network: nodes are numbered from 0 as they are met.
    struct Part {
        std::vector<std::size_t> links;  ///< of the resistors
        std::vector<Resistor> resistors;
        std::vector<std::size_t> loads;
        std::size_t nodes = 0;
    };
    /// The nodes of a load.
    struct Ends {
        std::size_t giver = 0, taker = 0, giver_ground = 0, taker_ground = 0;
        std::size_t part = 0;
    };

    void build(const Design& design, const Wiring& wiring);
    void compare_voltages(const Design& design);
    void add(std::size_t part, const FeedCase& with, Feeds& feeds) const;
    Feed feed_of(std::size_t load, const FeedCase& with) const;

    FeedLoads loads_;
    std::vector<Part> parts_;
    std::vector<Ends> ends_;  ///< by load
};

/// Solves what the promises state; loads and voltages of a budget are those of its worst case.
Feeds solve_feeds(const Design& design, const Wiring& wiring);

}  // namespace pinfold
