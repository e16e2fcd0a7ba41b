// Coupling between conductors as the field of the ribbon's section has it.
#pragma once

#include "design/design.hpp"
#include "order/coupling.hpp"

namespace pinfold {

/// From the field of the ribbon's section; by distance if its type lacks a size for that.
///
/// Backward coupling (Lm / sqrt(L1 L2) + Cm / sqrt(C1 C2)) / 4 of two conductors of a row of six,
/// all beyond them ground, so many grounds between them and the other ones signals that carry
/// nothing. The row is common practice; more grounds or more distance never count for more.
/// Source of the formula: weakly coupled lines, as any handbook of crosstalk has it; held against
/// the ribbon of tests/published in tests/order/field_coupling.cpp.
/// Throws InputError for a section that no field can be solved in.
Coupling coupling_of(const Design& design, const Ribbon& ribbon);

}  // namespace pinfold
