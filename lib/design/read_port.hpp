// Reading one port of a device or board.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/fields.hpp"
#include "design/design.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// What a reader needs at hand: where pin maps come from, where they are kept, and the faults.
struct ReaderDesk {
    Design& design;
    Library& library;
    Findings& findings;
};

/// A port as written, its copper not yet resolved.
struct WrittenPort {
    Port port;
    std::vector<std::pair<std::string, Mark>> wired;   ///< what each contact is wired to, if listed
    std::optional<std::pair<std::string, Mark>> like;  ///< the port whose signals it is joined to
};

/// Reads `NAME: hdmi-a plug` or the map form. On a device, contacts listed by name bear signals;
/// on a board they say what they are wired to.
WrittenPort read_port(const Yaml::Entry& entry, bool on_device, ReaderDesk& desk);

/// Names of boards, ports, ribbons and leads: letters, digits, `-` and `_`.
void require_plain_name(const std::string& name, const Mark& at, Findings& findings);

}  // namespace pinfold
