#include "pinmap/library.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/ascii.hpp"
#include "base/spelling.hpp"

namespace pinfold {
namespace {

/// A name that cannot climb out of its folder.
bool is_plain_id(std::string_view id) {
    return !id.empty() && id.front() != '.' && std::ranges::all_of(id, [](char c) {
        return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-' || c == '.' || c == '_';
    });
}

bool is_file(const std::filesystem::path& path) {
    std::error_code trouble;
    return std::filesystem::is_regular_file(path, trouble);
}

std::filesystem::path file_in(const std::filesystem::path& folder, PinMapKind kind,
                              const std::string& id) {
    return folder / folder_of(kind) / (id + ".yaml");
}

}  // namespace

std::string_view folder_of(PinMapKind kind) {
    switch (kind) {
        case PinMapKind::connector: return "connectors";
        case PinMapKind::interface: return "interfaces";
        case PinMapKind::ribbon: return "ribbons";
        case PinMapKind::receptacle: return "receptacles";
    }
    return "";
}

Library::Library(std::vector<std::filesystem::path> folders) : folders_(std::move(folders)) {}

bool Library::has(PinMapKind kind, const std::string& id) const {
    return is_plain_id(id) && std::ranges::any_of(folders_, [&](const auto& folder) {
               return is_file(file_in(folder, kind, id));
           });
}

std::vector<std::string> Library::names(PinMapKind kind) const {
    std::set<std::string> names;
    for (const std::filesystem::path& folder : folders_) {
        std::error_code trouble;
        std::filesystem::directory_iterator files(folder / folder_of(kind), trouble);
        if (trouble) continue;
        for (const auto& file : files) {
            if (file.path().extension() == ".yaml") names.insert(file.path().stem().string());
        }
    }
    return {names.begin(), names.end()};
}

std::filesystem::path Library::path_of(PinMapKind kind, const std::string& id, const Mark& at) {
    std::vector<std::filesystem::path> found;
    for (const std::filesystem::path& folder : folders_) {
        if (!is_plain_id(id)) break;
        if (is_file(file_in(folder, kind, id))) found.push_back(file_in(folder, kind, id));
    }
    if (found.empty()) {
        const std::vector<std::string> known = names(kind);
        const std::string hint = known.empty()
                                     ? fmt::format("; no folder of {} was found", folder_of(kind))
                                     : did_you_mean(id, known);
        throw InputError(
            {{Severity::error, "pinmap-unknown",
              fmt::format("no pin map '{}' among the {}{}", id, folder_of(kind), hint), at}});
    }
    if (found.size() > 1) {
        hidden_.push_back({Severity::note, "pinmap-own",
                           fmt::format("'{}' is read from {} and hides {}", id, found[0].string(),
                                       found[1].string()),
                           at});
    }
    return found[0];
}

const Interface& Library::interface(const std::string& id, const Mark& at) {
    const auto known = interfaces_.find(id);
    if (known != interfaces_.end()) return known->second;
    const auto path = path_of(PinMapKind::interface, id, at);
    return interfaces_.emplace(id, read_interface(id, read_source(path))).first->second;
}

const Connector& Library::connector(const std::string& id, const Mark& at) {
    const auto known = connectors_.find(id);
    if (known != connectors_.end()) return known->second;
    const auto path = path_of(PinMapKind::connector, id, at);
    const auto find = [this](const std::string& name, const Mark& mark) -> const Interface& {
        return interface(name, mark);
    };
    return connectors_.emplace(id, read_connector(id, read_source(path), find)).first->second;
}

const RibbonType& Library::ribbon(const std::string& id, const Mark& at) {
    const auto known = ribbons_.find(id);
    if (known != ribbons_.end()) return known->second;
    const auto path = path_of(PinMapKind::ribbon, id, at);
    return ribbons_.emplace(id, read_ribbon_type(id, read_source(path))).first->second;
}

const ReceptacleType& Library::receptacle(const std::string& id, const Mark& at) {
    const auto known = receptacles_.find(id);
    if (known != receptacles_.end()) return known->second;
    const auto path = path_of(PinMapKind::receptacle, id, at);
    return receptacles_.emplace(id, read_receptacle_type(id, read_source(path))).first->second;
}

Findings Library::hidden() const { return hidden_; }

}  // namespace pinfold
