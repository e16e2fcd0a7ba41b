// Too many: what a ribbon with too few conductors is asked to carry.
#pragma once

#include "order/cargo.hpp"

namespace pinfold {

/// The fewest demands that together are more than the ribbon has conductors; `grounds` are wanted
/// for the reason `why`.
NoOrder too_many(const Ribbon& ribbon, const std::vector<CargoNet>& nets, int grounds,
                 const std::string& why);

}  // namespace pinfold
