// The map of a mating: which contact of one board meets which of the other, and if they agree.
#pragma once

#include <utility>

#include "check/mate.hpp"

namespace pinfold {

/// The copper at a contact of a board, or nothing if it is open.
const Net* net_at(const Design& design, const ContactRef& contact);

/// Whether two contacts' copper means one signal, as `mate` says.
bool means_same(const Design& design, const ContactRef& a, const ContactRef& b);

/// How many contacts are not the same.
std::size_t differing(const std::vector<MateContact>& map);

/// The ports the first ribbon's ends sit in.
std::pair<PortRef, PortRef> mated_ports(const Design& design);

/// The mating without its findings.
Mating mating_of(const Design& design);

}  // namespace pinfold
