// Changes a person could make to a line: order, copper, film, shield, length, rate.
#pragma once

#include "check/edits.hpp"
#include "check/line.hpp"

namespace pinfold {

/// The changes of `helpful_changes`, in the order they are told.
std::vector<Edit> line_edits(const Design& design, const Wiring& wiring, const LineGroup& group);

/// The conductors of a ribbon in another order, by their places from 0: pairs first, each between
/// grounds as far as the grounds go, then the others, and what grounds are left.
std::vector<std::size_t> guarded_order(const Design& design, const Wiring& wiring,
                                       std::size_t ribbon);

}  // namespace pinfold
