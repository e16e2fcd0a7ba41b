// Touchstone files: scattering over frequency, for simulators and network analysers.
#pragma once

#include <string>
#include <vector>

#include "physics/scattering.hpp"

namespace pinfold {

/// A file of version 1, real and imaginary parts with ten digits, in hertz, against
/// `reference_ohm`; `port_names` stand as a map of the ports in comments, after `remarks`.
///
/// Source: IBIS Touchstone File Format Specification 2.0 (2009), its version 1 part: two ports in
/// the order 11 21 12 22, others row by row, each row on a line of its own, at most four numbers
/// to a line. What the remarks and names hold beside printable ASCII is written as `?`.
std::string write_touchstone(const Sweep& sweep, const std::vector<std::string>& port_names,
                             const std::vector<std::string>& remarks);

}  // namespace pinfold
