// The diagnosis of an assembly as JSON.
#pragma once

#include <string>

#include "bringup/diagnosis.hpp"

namespace pinfold {

/// A document of schema `pinfold-diagnose/1`; row numbers are those of the readings.
std::string diagnosis_json(const Diagnosis& diagnosis);

}  // namespace pinfold
