// The pin maps of a library in a list: what each is called and what it is.
#pragma once

#include <string>
#include <vector>

#include "pinmap/library.hpp"

namespace pinfold {

struct PinMapEntry {
    std::string id;
    std::string name;
};

/// The pin maps of one kind.
struct PinMapShelf {
    PinMapKind kind = PinMapKind::connector;
    std::vector<PinMapEntry> entries;  ///< sorted by id
};

/// All pin maps, connectors first. Each file is read; throws InputError for one that is unusable.
std::vector<PinMapShelf> shelves_of(Library& library);

/// The kinds that have a pin map of this name, in the order of the shelves.
std::vector<PinMapKind> kinds_of(const Library& library, const std::string& id);

/// `connector`, `interface`, `ribbon`, `receptacle`.
std::string_view name_of(PinMapKind kind);

}  // namespace pinfold
