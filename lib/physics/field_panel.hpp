// What the charge on one panel does elsewhere, for a unit on each of its points.
#pragma once

#include <span>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

/// The potential at `to` of a charge of 2 pi eps0 per length on each point of the panel, spread by
/// the polynomial (Fourier series) that is one there and nothing at the panel's other points.
/// `own` is which of the panel's points `to` is, -1 if it is none.
void potentials_of(const Panel& panel, const Space& space, Point to, int own,
                   std::span<double> values);

/// The field along `normal` at `to`, likewise; on the panel itself the mean of its two sides.
void fields_of(const Panel& panel, const Space& space, Point to, Point normal, int own,
               std::span<double> values);

/// The integral of charge density times charge density along a panel, for a unit on each two of its
/// points: `order` squared values, 1/mm.
void crowding_of(const Panel& panel, std::span<double> values);

}  // namespace pinfold::field
