// What a ribbon with too few conductors gives up, of what its file says may be left out.
#pragma once

#include "order/cargo.hpp"

namespace pinfold {

/// Takes nets out of the cargo, in the order of the file's list, until `over` conductors are saved
/// or the list is at its end; how many were saved.
///
/// Throws InputError for a list that names what is not carried, a half of a pair, or one net twice.
int leave_out(const Ribbon& ribbon, int over, Cargo& cargo);

}  // namespace pinfold
