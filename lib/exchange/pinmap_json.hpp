// Pin maps as JSON, schema pinfold-pinmap/1.
#pragma once

#include <string>
#include <vector>

#include "pinmap/connector.hpp"
#include "pinmap/interface.hpp"
#include "pinmap/ribbon_type.hpp"
#include "pinmap/shelf.hpp"

namespace pinfold {

/// Each is a whole document. Keys are stable and carry the unit (`pitch_mm`); what is not known is
/// null.
std::string pinmap_list_json(const std::vector<PinMapShelf>& shelves);
std::string connector_json(const Connector& connector, const Interface& interface);
std::string interface_json(const Interface& interface);
std::string ribbon_json(const RibbonType& ribbon);
std::string receptacle_json(const ReceptacleType& receptacle);

}  // namespace pinfold
