// Promises: which contact each carried signal must reach, and what meeting another contact means.
#pragma once

#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// One signal a carry promises: from a contact of the near port to one of the far port.
struct Promise {
    std::size_t signal = 0;  ///< in the interface of the near port
    Role role = Role::low_speed;
    ContactRef from;
    ContactRef to;
};

/// The signals of one carry, in order of the near port's contacts: every signal both ports have
/// that runs between them; of a supply, its contacts and their returns. Signals left out by the
/// user, unused ones and supplies that both ends give are not promised.
std::vector<Promise> promises_of(const Design& design, std::size_t carry);

/// What a promised signal finds when it meets a contact of a device.
///
/// `clash`: a contact it must not meet, at its own port or at a third one. Grounds may meet each
/// other anywhere, a supply may meet supplies (who feeds whom is another question).
enum class Meeting { nothing, wanted, other_half, other, clash };
Meeting meet(const Design& design, const Promise& promise, const ContactRef& met);

/// What a device's contact is to a stranger that meets it. Contacts put to no use, and those of
/// boards, are idle.
enum class Standing { idle, ground, supply, signal };
Standing standing_of(const Design& design, const ContactRef& contact);

/// Whether a promised signal must not meet such a contact of a third device: grounds may meet
/// grounds, and supplies supplies.
bool clashes(const Promise& promise, Standing standing);

/// The contact with the other half of a contact's pair, on the same port.
std::optional<ContactRef> other_half_of(const Design& design, const ContactRef& contact);

/// What the far port calls a signal of the near port; nothing if it has no such signal.
std::optional<std::size_t> counterpart_in(const Interface& near, std::size_t signal,
                                          const Interface& far);

bool is_ground(Role role);

}  // namespace pinfold
