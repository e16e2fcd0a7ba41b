// The library of pin maps: finds them by name, nearest folder first, and reads each once.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "pinmap/read.hpp"

namespace pinfold {

/// The four kinds of pin map, each a folder of the library.
enum class PinMapKind { connector, interface, ribbon, receptacle };

std::string_view folder_of(PinMapKind kind);

/// Pin maps in one or more folders, each with the subfolders `connectors`, `interfaces`, `ribbons`
/// and `receptacles`. A name is looked for in the first folder first, so a user's own pin map
/// beats a shipped one; `hidden()` says where that happened.
class Library {
public:
    explicit Library(std::vector<std::filesystem::path> folders);

    /// Each throws InputError for a name nobody has (with the nearest one, marked at `at`) and for
    /// a file that cannot be used. The references stay good as long as the library.
    const Connector& connector(const std::string& id, const Mark& at);
    const Interface& interface(const std::string& id, const Mark& at);
    const RibbonType& ribbon(const std::string& id, const Mark& at);
    const ReceptacleType& receptacle(const std::string& id, const Mark& at);

    bool has(PinMapKind kind, const std::string& id) const;
    /// All names of one kind, sorted, each once.
    std::vector<std::string> names(PinMapKind kind) const;

    /// One `pinmap-own` note for each pin map read that stands before another of its name.
    Findings hidden() const;

private:
    std::filesystem::path path_of(PinMapKind kind, const std::string& id, const Mark& at);

    std::vector<std::filesystem::path> folders_;
    std::map<std::string, Connector> connectors_;
    std::map<std::string, Interface> interfaces_;
    std::map<std::string, RibbonType> ribbons_;
    std::map<std::string, ReceptacleType> receptacles_;
    Findings hidden_;
};

}  // namespace pinfold
