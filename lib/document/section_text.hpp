// A solved section for the terminal: its matrices, its pairs, and how far they can be trusted.
#pragma once

#include <string>

#include "physics/per_metre.hpp"
#include "physics/section.hpp"

namespace pinfold {

std::string section_text(const Section& section, const FieldSolution& solution);

}  // namespace pinfold
