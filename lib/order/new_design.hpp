// New designs: a ribbon for an interface with what it needs at its ends, commented, the order open.
#pragma once

#include <optional>
#include <string>

#include "pinmap/library.hpp"

namespace pinfold {

/// What a new design is to join; names as the library has them.
struct NewDesign {
    std::string interface;
    std::string connector_a, connector_b;  ///< of the two devices
    std::string ribbon;
    int conductors = 0;
    std::optional<double> current_a;  ///< drawn at the far port, if not what the interface allows
};

/// The text of the design, with `wired: best` on every adapter. A connector that takes this ribbon
/// itself has none.
///
/// Throws InputError for names nobody has, for connectors that do not carry the interface, and for
/// a ribbon that no receptacle takes.
std::string new_design_text(const NewDesign& wanted, Library& library);

}  // namespace pinfold
