// Single signals on ribbons: what each meets, conductor by conductor.
#pragma once

#include <string>
#include <vector>

#include "check/line_memory.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// A single signal of a promise on one ribbon of its way.
struct SingleLine {
    std::size_t carry = 0;
    std::size_t ribbon = 0;
    std::string signal;
    SingleImpedance impedance;  ///< every other signal conductor held at ground
    Picoseconds delay;          ///< along the ribbon
};

/// All single signals that arrive over ribbons whose field is known, by promise and ribbon; of
/// what is no signal, supply and ground, there is none.
std::vector<SingleLine> measure_singles(const Design& design, const Wiring& wiring,
                                        LineMemory& memory);

}  // namespace pinfold
