// Occupants: what lies on each conductor of a ribbon, and what that means for its neighbours.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// What one conductor carries.
struct Occupant {
    enum class Kind { open, ground, supply, pair_half, single };

    ConductorNumber conductor{1};
    Kind kind = Kind::open;
    std::string name;                 ///< the promised signal, else the board's net, else empty
    std::uint32_t piece = 0;          ///< the connected piece it belongs to
    std::optional<Wire> wire;         ///< the promise it keeps, if any
    std::optional<std::size_t> pair;  ///< in the interface of the promise's near port
    bool clock = false;               ///< a clock, single or pair
    bool fast = false;                ///< half of a pair that needs guards
    std::optional<Volts> withstands;
    std::optional<Volts> highest;  ///< of a supply: what its interface allows at the source
    Mark at;                       ///< where the board at end a (else b) says so
};

/// The conductors of a ribbon in order of number.
std::vector<Occupant> occupants(const Design& design, const Wiring& wiring, std::size_t ribbon);

/// `strap.5`
std::string name_of(const Design& design, std::size_t ribbon, ConductorNumber conductor);

}  // namespace pinfold
