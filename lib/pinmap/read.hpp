// Reading pin maps from YAML: interfaces, connectors, ribbon types, receptacles.
#pragma once

#include <functional>

#include "base/yaml.hpp"
#include "pinmap/connector.hpp"
#include "pinmap/interface.hpp"
#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// Each reader takes one file; `id` is the file's name without its ending.
///
/// Throws InputError with every fault in the file: broken YAML, unknown, missing or misshapen
/// fields, holes and doubles in the contact row, signals the interface does not have (with the
/// nearest spelling), pairs with one half, names that two signals answer to. What is returned
/// needs no further checks.
Interface read_interface(std::string id, std::shared_ptr<const Source> source);
RibbonType read_ribbon_type(std::string id, std::shared_ptr<const Source> source);
ReceptacleType read_receptacle_type(std::string id, std::shared_ptr<const Source> source);

/// Finds the interface a connector names; throws InputError, marked at the mark, for a wrong name.
using FindInterface = std::function<const Interface&(const std::string& id, const Mark& at)>;
Connector read_connector(std::string id, std::shared_ptr<const Source> source,
                         const FindInterface& find_interface);

}  // namespace pinfold
