// What draws on supplies: the loads of all promises, each between two points of the wiring.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// One supply of one promise, before anything is solved. Who gives is the near port, but for a
/// supply that runs back.
struct FeedLoad {
    std::size_t carry = 0;
    std::string supply;
    Point giver = 0, taker = 0;                ///< of the supply
    Point giver_ground = 0, taker_ground = 0;  ///< where its current returns
    std::optional<Amperes> current;            ///< what is drawn, if it is a current
    std::optional<Watts> power;                ///< ... or a power; nothing of both in a budget
    bool in_budget = false;                    ///< the budget knows its power and voltage
    std::optional<Volts> given;                ///< at the giver, at the least
    std::optional<Volts> least, most;          ///< that the taker must see, and stands
    std::string window_source;
};

struct FeedLoads {
    std::vector<FeedLoad> loads;
    Findings remarks;  ///< supplies whose current or voltage nobody states, or without return
};

/// The loads of every supply that arrives with a ground.
FeedLoads gather_feed_loads(const Design& design, const Wiring& wiring);

}  // namespace pinfold
