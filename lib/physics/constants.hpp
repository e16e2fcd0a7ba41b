// Constants of nature, as CODATA 2018 gives them.
#pragma once

namespace pinfold {

constexpr double light_speed = 299792458.0;               ///< m/s
constexpr double vacuum_permeability = 1.25663706212e-6;  ///< H/m
constexpr double vacuum_permittivity = 8.8541878128e-12;  ///< F/m

}  // namespace pinfold
