// Mating: whether two adapters agree contact by contact over a ribbon.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/design.hpp"

namespace pinfold {

/// One line of the map: a contact of board A, the conductor it meets, and the contact of board B at
/// its other end. A contact that meets no conductor has none.
struct MateContact {
    std::optional<ContactRef> a;
    std::optional<ConductorNumber> conductor;
    std::optional<ContactRef> b;
    std::string signal_a, signal_b;  ///< what each board calls its copper there; empty if open
    bool same = false;               ///< both mean one signal, or both are open
};

struct Mating {
    bool mates =
        false;  ///< proved: both ends touch, the order is settled, every contact is the same
    bool touch_a = false, touch_b = false;
    Order order = Order::straight;
    std::vector<MateContact> contacts;  ///< in order of board A's contacts
    Findings findings;
};

/// Compares the two boards that the first ribbon of `design` joins.
///
/// Signals are the same if both boards' copper bears the same interface signal (by the interface's
/// counterpart rule where the boards stand for opposite ends), both are grounds, or the names are
/// one in any usual spelling. Without a lay the ribbon is taken to be led so that it touches.
Mating mate(const Design& design);

}  // namespace pinfold
