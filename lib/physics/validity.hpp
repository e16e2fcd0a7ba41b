// Validity: up to which frequency a static field tells what a line does.
#pragma once

#include "physics/per_metre.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// What the field of a current and of its return spans across a section.
///
/// Without planes a current may return on any conductor: from edge to edge of them all. Over a
/// plane, or between two, it returns beneath: the widest conductor and its height on either side,
/// since the field of a strip and its image dies away within about that.
Millimetres field_span(const Section& section);

/// The frequency above which a line's quasi-static model is not to be believed: its field spans
/// 0.15 of the wave of its slowest mode (s/m), from memory.
///
/// Beyond it an open ribbon radiates; over a plane the field gathers in the dielectric and higher
/// modes come up. There it is on the safe side of what is published: between two planes, whose
/// distance is less than what is spanned, the next mode begins at half a wave; over one, by
/// Getsinger's formula (IEEE Transactions on Microwave Theory and Techniques 21(1), 1973, from
/// memory), dispersion delays a strip by some 2 % at this frequency.
Hertz quasi_static_limit(Millimetres span, double slowest);
/// The same of a section and its line.
Hertz quasi_static_limit(const Section& section, const PerMetre& line);

}  // namespace pinfold
