// What single changes of a design would do to a line, each made to a copy and measured again.
#pragma once

#include <string>
#include <vector>

#include "check/line_fault.hpp"

namespace pinfold {

/// A line in a few numbers, each that of its worst pair.
struct LineFigures {
    std::size_t faults = 0;  ///< of all pairs together
    double z_diff = 0.0;     ///< ohm; furthest from what is wanted, every other signal at ground
    Decibels crosstalk;      ///< of all other pairs, powers summed
    Volts eye;               ///< of the pairs that are listened to
};

LineFigures figures_of(const LineGroup& group);

struct LineChange {
    std::string text;  ///< `conductors 0.05 mm thick instead of 0.035 mm`
    LineFigures figures;
};

/// The changes that help: fewer faults, or as many and an eye larger by a twentieth of the swing.
///
/// Tried, one at a time, on every ribbon of the line: each pair side by side between grounds as far
/// as the grounds go, thicker conductors, wider and narrower ones, thicker film, a foil on the film
/// and further off, half the length; and half the rate. A line that states no rate has nothing to
/// gain.
std::vector<LineChange> helpful_changes(const Design& design, const Wiring& wiring,
                                        const LineGroup& group, LineMemory& memory);

}  // namespace pinfold
