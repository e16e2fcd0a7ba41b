// The field solver: charges on the conductors of a cross-section, and what follows from them.
#pragma once

#include "physics/per_metre.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// Solves the static electric field of a section; every conductor may be at its own voltage, what
/// is ground comes later (`per_metre`).
///
/// Boundary elements: total charge (free and bound) on metal walls and on the faces between
/// dielectrics, polynomials on each stretch in a measure that holds the singularity of its corners,
/// collocated at Gauss points; Fourier series on wires; images for planes. Two meshes are solved,
/// the first already meant to be right to `wanted_error`, and finer ones until two in a row agree
/// within it in every entry of the capacitance, in vacuum too, against its diagonal.
/// `error_estimate` is what the last two differ by, and never less than what is seen to remain
/// where they agree by chance; tests hold it against far finer meshes. If that takes more than
/// some thousand unknowns the estimate stays above what was wanted, and says so. The recession (of
/// the loss of the skin) follows to `recession_error`, since the square of the charge converges
/// slower.
///
/// Source of the equations: R. F. Harrington et al., "Computation of ... multiconductor lines",
/// total-charge formulation; from memory. Quasi-static: good while the section is much narrower
/// than a wave is long. Throws InputError as `require_solvable` does.
FieldSolution solve_field(const Section& section, double wanted_error = 0.005);

/// Relative, of the worst entry of the recession against its diagonal, and so of the resistance
/// where the skin effect rules; tests hold it against finer meshes.
constexpr double recession_error = 0.03;

}  // namespace pinfold
