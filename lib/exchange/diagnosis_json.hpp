// The diagnosis of an assembly as JSON.
#pragma once

#include <string>

#include "bringup/diagnosis.hpp"

namespace pinfold {

/// A document of schema `pinfold-diagnose/1`; row numbers are those of the readings. A next reading
/// is taken with every device unplugged, unless `with` names the one that is plugged in (then
/// `shows` says what it should show); `alone` names a ribbon to be taken out and measured by
/// itself.
std::string diagnosis_json(const Diagnosis& diagnosis);

}  // namespace pinfold
