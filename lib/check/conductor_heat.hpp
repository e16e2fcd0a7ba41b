// How warm the conductors of ribbons get, and which are too warm.
#pragma once

#include <optional>

#include "base/finding.hpp"
#include "check/feed.hpp"
#include "physics/film_rise.hpp"

namespace pinfold {

/// The air around ribbons. With the rise below it makes the 60 degC resistances are taken at.
constexpr Celsius ribbon_air{30.0};

/// What conductors in a film may warm by; common practice.
constexpr Kelvins most_rise{30.0};

/// The estimate of film_rise.hpp for a conductor of a flat ribbon; nothing for any other link.
std::optional<FilmRise> rise_of(const Design& design, const Link& link, Amperes current);

/// Finds, on each ribbon, the conductor that warms most, if that is too much.
Findings check_rises(const Design& design, const Wiring& wiring, const Feeds& feeds);

}  // namespace pinfold
