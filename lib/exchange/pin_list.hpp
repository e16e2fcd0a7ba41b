// Pin lists: two columns of CSV that say which contact of one port lies on which of another.
//
// One row for each pair of contacts: a contact or signal of the first port, then a contact or
// signal of the second. Cells stand between commas or semicolons (the first of either that is not
// quoted settles which), quoted after RFC 4180 if need be; lines end in LF or CR LF; blank lines
// and lines that begin with # are passed over. The first row is a heading if neither of its cells
// names a contact or signal; a heading of the two references settles which column is whose. A
// signal means every contact that bears it. An empty second cell, `open`, `-` or `NC` means joined
// to nothing.
#pragma once

#include <memory>

#include "design/adopt.hpp"

namespace pinfold {

/// Whether a text looks like a pin list rather than one of the netlists.
bool is_pin_list(const Source& source);

/// The netlist of the two ports. Throws InputError with the place of every row that has not two
/// cells or names no contact, with the nearest name.
Netlist read_pin_list(const std::shared_ptr<const Source>& source,
                      const std::vector<PartWords>& parts, Library& library);

}  // namespace pinfold
