// Adopting nets: what the board file says each contact is wired to, so that it reads back the same.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "design/adopt.hpp"

namespace pinfold {

/// A net's name as people meant it: the last part of a sheet's path; empty for names that a drawing
/// program made up, such as `Net-(J1-Pad3)` and `unconnected-(...)`.
std::string meant_name(std::string_view drawn);

/// The signal a net's name means, also behind words in front of it: `HDMI_D2_P` is D2+.
std::optional<std::size_t> meant_signal(const Interface& interface, const std::string& name);

/// Decides which ports are wired by their pin table, and gives every other contact its entry.
void name_nets(Adoption& adoption, const Netlist& drawn, Library& library, NetNaming naming);

}  // namespace pinfold
