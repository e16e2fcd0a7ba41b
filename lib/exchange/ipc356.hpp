// IPC-D-356 and 356A electrical test files, read tolerantly.
#pragma once

#include <memory>

#include "design/netlist.hpp"

namespace pinfold {

/// The nets in an electrical test file: which pads of which parts each record puts on a net.
///
/// Long names come back through their aliases (NNAME, as parameter or comment). Vias, tooling holes
/// and records without a pad are passed over; `N/C` is a net of one pad. Columns are fixed; a
/// record whose reference is too long and pushes the rest aside is read by its `-`, with a remark.
/// Throws InputError for a file without a test record and for a pad on two nets.
/// Source of the columns: application note AN40, IPC-D-356A netlist format.
Netlist read_ipc356(const std::shared_ptr<const Source>& source);

}  // namespace pinfold
