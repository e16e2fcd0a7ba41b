// The measure of a panel: how its polynomials crowd towards sharp ends.
#pragma once

#include "physics/field_space.hpp"

namespace pinfold::field {

/// How a panel's own measure u in [-1, 1] runs along it: crowding towards sharp ends, so that
/// charge per u is smooth where charge per length is not.
struct Measure {
    double sharp_from = 1.0;
    double sharp_to = 1.0;  ///< one of the two is 1, or both are 1.5

    bool plain() const { return sharp_from == 1.0 && sharp_to == 1.0; }
    double place(double u) const;  ///< from -1 to 1 along the panel
    double slope(double u) const;  ///< of `place`
    Point inverse(Point place) const;
    friend bool operator==(const Measure&, const Measure&) = default;
};

}  // namespace pinfold::field
