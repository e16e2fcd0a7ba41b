// Electrical test files for bare boards, IPC-D-356A: nets with the places of their pads.
#pragma once

#include <memory>
#include <string>

#include "design/board.hpp"
#include "design/netlist.hpp"

namespace pinfold {

/// The netlist without the shield pads whose place nobody knows, with a remark for each.
///
/// Throws InputError, with every fault, for contacts whose place is not known.
Netlist placed_part(Netlist netlist, const Board& board);

/// A netlist with the places of all its pads, for whoever tests the bare board.
///
/// Metric (`UNITS CUST 1`, steps of 0.001 mm), records of at most 80 columns. Net names over 14
/// characters, or of other than printable ASCII, stand under an alias (`NNAME`). The netlist is a
/// `placed_part`. Throws InputError, with every fault, for references, contacts and places that the
/// columns cannot hold.
/// Source: IPC-D-356A, by an application note on its columns.
std::string electrical_test(const Netlist& netlist, const Board& board);

/// Reads IPC-D-356 and 356A: test records 317, 327, 307 and their continuations, long net names by
/// alias, also where they stand in comments. Vias, tooling holes, conductors and outlines are
/// passed over, as are records without a part; records whose columns have shifted are read by their
/// pattern, with a remark.
///
/// Throws InputError with every test record that cannot be read, for a pad on two nets, and for a
/// file without a test record.
Netlist read_electrical_test(const std::shared_ptr<const Source>& source);

}  // namespace pinfold
