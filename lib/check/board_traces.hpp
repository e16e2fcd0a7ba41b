// The traces of pairs on boards that have a stack-up, solved like the section of a ribbon.
#pragma once

#include <optional>

#include "check/line_memory.hpp"
#include "design/design.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// The two traces of a pair across: on the dielectric, in the mask if there is one, over the plane
/// if there is one, between wide ground copper if they have it beside them. The mask is taken as a
/// flat layer that fills the gaps.
Section trace_section(const StackUp& stack_up, const PairTrace& trace);

/// The line of the pair that a net of a board is half of; nothing without a stack-up or without
/// the width and gap of the pair. Throws InputError as `require_solvable` does.
std::optional<TraceLine> trace_line(const Design& design, LineMemory& memory, std::size_t board,
                                    std::size_t net);

PairImpedance impedance_of(LineMemory& memory, const TraceLine& line);

/// How long a half takes along its trace, `beside` of it along the other half and `more` alone.
Picoseconds trace_delay(LineMemory& memory, const TraceLine& line, Millimetres beside,
                        Millimetres more);

}  // namespace pinfold
