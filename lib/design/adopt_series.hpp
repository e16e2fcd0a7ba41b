// Adopting parts in series: which two-pad parts of a drawn board are taken for copper.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "design/adopt_ground.hpp"

namespace pinfold {

struct DrawnSeries {
    std::vector<std::string> references;
    std::map<std::size_t, std::size_t> joined;  ///< a net that is one with an earlier net
};

/// A fitted two-pad part between a net that only one port knows and a net that only another one
/// knows stands in a signal's way and is taken for copper; not where there is more than one way.
/// Each is told among the doubts.
DrawnSeries drawn_series(const Netlist& drawn, const std::vector<AdoptedPads>& pads,
                         Adoption& adoption);

}  // namespace pinfold
