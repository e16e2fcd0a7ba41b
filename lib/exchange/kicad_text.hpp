// KiCad netlists as text: S-expressions, written strictly and read tolerantly.
#pragma once

#include <memory>
#include <string>

#include "design/netlist.hpp"

namespace pinfold {

/// The netlist as KiCad reads it: everything quoted, two blanks a level, one line feed at the end.
///
/// Throws InputError for a text that holds a control character or more than 64 KiB.
std::string kicad_text(const Netlist& netlist);

/// Reads a netlist of any series from 4 to 10: quoted or bare atoms, comments, either line end,
/// parts it does not know.
///
/// Throws InputError with the place for text that is no netlist or passes the bounds of
/// `NetlistGrower`. Keeps references, values, footprints, identifiers, and the nets with their
/// nodes.
Netlist read_kicad_text(const std::shared_ptr<const Source>& source);

}  // namespace pinfold
