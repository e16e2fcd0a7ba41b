#include "pinmap/shelf.hpp"

#include <array>

namespace pinfold {
namespace {

constexpr std::array kinds{PinMapKind::connector, PinMapKind::interface, PinMapKind::ribbon,
                           PinMapKind::receptacle};

std::string name_in(Library& library, PinMapKind kind, const std::string& id) {
    switch (kind) {
        case PinMapKind::connector: return library.connector(id, {}).name;
        case PinMapKind::interface: return library.interface(id, {}).name;
        case PinMapKind::ribbon: return library.ribbon(id, {}).name;
        case PinMapKind::receptacle: return library.receptacle(id, {}).name;
    }
    return {};
}

}  // namespace

std::vector<PinMapShelf> shelves_of(Library& library) {
    std::vector<PinMapShelf> shelves;
    for (const PinMapKind kind : kinds) {
        PinMapShelf& shelf = shelves.emplace_back(PinMapShelf{kind, {}});
        for (const std::string& id : library.names(kind)) {
            shelf.entries.push_back({id, name_in(library, kind, id)});
        }
    }
    return shelves;
}

std::vector<PinMapKind> kinds_of(const Library& library, const std::string& id) {
    std::vector<PinMapKind> found;
    for (const PinMapKind kind : kinds) {
        if (library.has(kind, id)) found.push_back(kind);
    }
    return found;
}

std::string_view name_of(PinMapKind kind) {
    switch (kind) {
        case PinMapKind::connector: return "connector";
        case PinMapKind::interface: return "interface";
        case PinMapKind::ribbon: return "ribbon";
        case PinMapKind::receptacle: return "receptacle";
    }
    return "";
}

}  // namespace pinfold
