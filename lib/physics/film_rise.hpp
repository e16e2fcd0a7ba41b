// How warm a conductor in a film gets from its own current: an estimate.
#pragma once

#include "base/units.hpp"

namespace pinfold {

/// What a conductor warms to above the air around it.
struct FilmRise {
    bool settles = true;  ///< no: warming raises the resistance faster than the film cools
    Kelvins rise;
};

/// The rise of a copper conductor in a flat film of conductors at one pitch.
///
/// Each conductor gives its heat off through its own pitch of film, on both faces, at 10 W/m2K
/// (still air, convection and radiation together; common practice): I^2 R' / (2 h p), with R' at
/// the air's temperature; then dT / (1 - a dT) for copper that is warmer than the air. Right for a
/// ribbon whose conductors all carry as much; too high for one that carries alone, whose heat
/// spreads through the film to two or three neighbours. Nothing flows along the conductor.
/// The section and the pitch must not be nothing.
FilmRise film_rise(Amperes current, SquareMillimetres section, Millimetres pitch, Celsius air);

}  // namespace pinfold
