// The tree behind both forms of a KiCad netlist, made from a netlist.
#pragma once

#include <string_view>

#include "design/netlist.hpp"
#include "exchange/branch.hpp"

namespace pinfold {

/// Whether the XML form writes `word` inside `parent` as an attribute; the text form keeps such
/// branches on the line of their parent.
bool is_attribute(std::string_view parent, std::string_view word);

/// The tree of a netlist, version "E", as the series from 6 on write it.
///
/// The date stays empty, so equal designs give equal bytes. Throws InputError for a text that no
/// reader could be given (see `leaf`).
Branch kicad_tree(const Netlist& netlist);

}  // namespace pinfold
