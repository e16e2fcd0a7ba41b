// KiCad netlists as XML: the same tree in the other form.
#pragma once

#include <memory>
#include <string>

#include "design/netlist.hpp"

namespace pinfold {

/// The netlist in KiCad's XML form, UTF-8.
///
/// Throws InputError for a text that holds a control character or more than 64 KiB.
std::string kicad_xml(const Netlist& netlist);

/// Reads the XML form of any series from 4 to 10, like `read_kicad_text`.
///
/// Throws InputError with the place for what is no XML, has another encoding than UTF-8, more than
/// one root, or passes the bounds of `NetlistGrower`. Entities of the file's own are never
/// expanded.
Netlist read_kicad_xml(const std::shared_ptr<const Source>& source);

}  // namespace pinfold
