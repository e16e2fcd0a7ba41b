// Too many: what a ribbon with too few conductors is asked to carry.
#pragma once

#include "order/cargo.hpp"

namespace pinfold {

/// Conductors wanted beside those of the nets.
struct Besides {
    int grounds = 0;
    std::string why;  ///< so many grounds
    int open = 0;     ///< by the file's wish
};

/// The fewest demands that together are more than the ribbon has conductors.
NoOrder too_many(const Ribbon& ribbon, const std::vector<CargoNet>& nets, const Besides& besides);

}  // namespace pinfold
