// Adopting doubts: what about an adopted board must be settled against the part in hand.
#pragma once

#include <string>
#include <vector>

#include "design/adopt.hpp"

namespace pinfold {

/// Adds the doubts about nets called by other signals than their contacts bear, about contacts that
/// reach no other one, and about grounds apart from the board's.
void tell_doubts(Adoption& adoption, const Netlist& drawn, Library& library);

/// Whether the pin map has ground, or a pair's shield, on a contact.
bool bears_ground(const AdoptedPort& port, const AdoptedContact& contact);

/// Names in a sentence, no more than a person reads.
std::string names_in_sentence(const std::vector<std::string>& names);

}  // namespace pinfold
