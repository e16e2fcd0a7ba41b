// The diagnosis of an assembly, for the person with the meter.
#pragma once

#include <string>

#include "bringup/diagnosis.hpp"

namespace pinfold {

std::string to_text(const Diagnosis& diagnosis);

}  // namespace pinfold
