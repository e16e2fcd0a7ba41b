// Adopting the ground: which net of a drawn board is its ground.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "design/adopt.hpp"

namespace pinfold {

/// A pad of a part that becomes a port.
struct AdoptedPad {
    std::size_t net = no_net;
    Mark at;
    bool is_contact = false;
};
using AdoptedPads = std::map<std::string, AdoptedPad>;  ///< of one part, by label

/// The net that is called ground and has most pads; without any, the one most ground contacts of
/// the pin maps lie on, shields of pairs counting least. `pads` are those of the adopted ports.
std::size_t drawn_ground(const Adoption& adoption, const std::vector<AdoptedPads>& pads,
                         const Netlist& drawn, Library& library);

}  // namespace pinfold
