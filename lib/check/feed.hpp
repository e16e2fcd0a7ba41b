// Feeds: the current in every conductor and contact on a supply's way, and what arrives.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// The current that one link of the wiring carries, all loads together.
struct LinkLoad {
    std::size_t link = 0;  ///< in the wiring's links
    Amperes current;
};

/// What one supply does on its way: from the near port to the far one and back through ground.
struct Feed {
    std::size_t carry = 0;
    std::string supply;
    Amperes current;
    Volts drop_out, drop_back;
    std::optional<Volts> given;     ///< at the near port, at the least
    std::optional<Volts> arriving;  ///< at the far port
    std::optional<Volts> least;     ///< that the far port must see
    std::optional<Volts> most;      ///< that it stands
    std::string window_source;
};

struct Feeds {
    std::vector<Feed> feeds;
    std::vector<LinkLoad> loads;
    Findings remarks;  ///< supplies whose current nobody states
};

/// Solves the resistive network of every supply that arrives, with its return through all grounds
/// that its boards share.
///
/// Conductors at 60 degC, contacts at the resistance of their pin map (50 mohm where it gives
/// none, common practice), copper of boards without resistance, all grounds of one device on one
/// plane.
Feeds solve_feeds(const Design& design, const Wiring& wiring);

}  // namespace pinfold
