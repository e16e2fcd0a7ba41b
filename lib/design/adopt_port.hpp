// Adopting a part: which port of a board the user's words make of it.
#pragma once

#include "design/adopt.hpp"

namespace pinfold {

/// A part of the netlist and the highest number among its pads.
struct AdoptedPart {
    const Netlist::Component* component = nullptr;
    int highest = 0;
};

/// The port, without nets. What had to be assumed goes into `doubts`; throws InputError for words
/// that name nothing, with the nearest name.
AdoptedPort adopt_port(const AdoptedPart& part, const PartWords& words, Library& library,
                       Findings& doubts);

}  // namespace pinfold
