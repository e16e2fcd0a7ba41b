// The comparison of a board with a netlist as JSON, schema pinfold-compare/1.
#pragma once

#include <string>

#include "check/compare.hpp"

namespace pinfold {

/// Keys: `schema`, `same`, `form` (what the netlist was read as), `pads` and `nets` (how many were
/// compared), `ports` [{`port`, `reference` or null, `by`}], `findings` as in the check.
std::string compare_json(const Board& board, const Comparison& comparison, const std::string& form);

}  // namespace pinfold
