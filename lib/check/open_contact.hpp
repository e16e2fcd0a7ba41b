// What becomes of supplies when any one of their contacts makes no contact.
#pragma once

#include <vector>

#include "check/feed.hpp"
#include "check/ratings.hpp"

namespace pinfold {

/// A supply with that contact open that costs it the most voltage, or lets it not settle.
struct LowestOpen {
    std::size_t feed = 0;  ///< in Feeds::feeds
    std::size_t open = 0;  ///< the contact, in the wiring's links
    Feed then;
};

/// The link that comes nearest to its rating, or furthest above, when some one contact is open.
struct HardestOpen {
    std::size_t open = 0;
    LinkLoad load;
    LinkLimit limit;  ///< as without the open contact
};

struct OpenContacts {
    std::vector<LowestOpen> lowest;    ///< of each supply that a contact can be taken from
    std::vector<HardestOpen> hardest;  ///< of each network; links above their rating left out
    std::size_t untried = 0;           ///< contacts of networks too large to try
};

/// Opens each contact that carries 10 mA or more, one at a time, and solves its network again. One
/// that leaves a load without its way is not tried: that fault shows itself.
///
/// The work is bounded: contacts times links, all networks together, to 100 000.
OpenContacts open_contacts(const Design& design, const Wiring& wiring, const FeedNetworks& networks,
                           const FeedCase& with);

/// Finds supplies that one open contact makes too low or overloads, and tells if not all were
/// tried. `whole` are the same supplies with all contacts closed.
Findings check_open_contacts(const Design& design, const Wiring& wiring, const Feeds& whole,
                             const OpenContacts& opened);

}  // namespace pinfold
