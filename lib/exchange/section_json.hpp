// A solved section as JSON, schema pinfold-section/1.
#pragma once

#include <string>

#include "physics/per_metre.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// Keys: `schema`, `conductors` (names of the signals; ground left out), `capacitance_f_per_m`,
/// `capacitance_vacuum_f_per_m`, `inductance_h_per_m` (rows in that order), with a frequency
/// `frequency_hz`, `resistance_ohm_per_m` and `conductance_s_per_m`, `pairs` [{`plus`, `minus`,
/// `z_diff_ohm`, `z_common_ohm`, `delay_ps_per_m`, `z_diff_matched_ohm`, `coupling`}] as
/// `PairImpedance` defines them, `singles` the same way, `error_estimate` (relative), `unknowns`.
std::string section_json(const Section& section, const FieldSolution& solution);

}  // namespace pinfold
