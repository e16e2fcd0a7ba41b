// Pin maps for the terminal: the list of them, and one connector as a table with its mating face.
#pragma once

#include <string>
#include <vector>

#include "pinmap/connector.hpp"
#include "pinmap/interface.hpp"
#include "pinmap/shelf.hpp"

namespace pinfold {

std::string pinmap_list_text(const std::vector<PinMapShelf>& shelves);

/// One connector: every contact with its signal, role, direction, pair and lane, the mating face
/// drawn, where the plug differs, the source, and what rests on memory.
std::string connector_text(const Connector& connector, const Interface& interface);

/// Which way a signal runs, in the words of the interface: `source -> sink`.
std::string direction_text(Direction direction, const Interface& interface);

/// The half or shield a signal is of its pair: `D2 +`; empty if it is in no pair.
std::string pair_text(std::size_t signal, const Interface& interface);

/// "Source: ..." in lines, and the doubts if there are any.
std::string source_text(const std::string& source, const std::vector<std::string>& doubts);

}  // namespace pinfold
