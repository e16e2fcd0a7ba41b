// Causes: what is wrong between the pads of a board and those drawn, as few things as we find.
#pragma once

#include "check/pad_table.hpp"

namespace pinfold {

/// One thing that is wrong between the pads, and the pads it is about.
struct PadCause {
    enum class Kind { open, shorted, misplaced, exchanged, pairs_exchanged };
    Kind kind = Kind::open;
    std::vector<std::size_t> pads;  ///< of an exchange: one, its other, the next, its other
    /// Of an open, the pads that are left of the net; else one pad of the net they lie on, if any.
    std::vector<std::size_t> beside;
};

/// The fewest causes we find, group by group of nets that touch each other.
std::vector<PadCause> pad_causes(const std::vector<ComparedPad>& pads);

}  // namespace pinfold
