// Chains: ribbons in a row, whose boards between do nothing but lead one on to the next.
#pragma once

#include <array>
#include <set>

#include "design/design.hpp"

namespace pinfold {

/// The ribbons that are chosen for the same cargo, and what stands at the two ends of the row.
struct Chain {
    std::set<std::size_t> ribbons;
    std::array<PortRef, 2> mouths;  ///< as seen from the asked ribbon's end a, then b
};

/// Whether a board has two ports, both for ribbons and both left open: it leads on what comes.
bool leads_on(const Board& board);

/// The chain of a ribbon that is joined at both ends; of that one alone in most designs.
Chain chain_of(const Design& design, std::size_t ribbon);

}  // namespace pinfold
