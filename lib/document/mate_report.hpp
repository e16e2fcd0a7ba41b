// The report of a mating: the map contact by contact, and the verdict.
#pragma once

#include <string>

#include "check/mate.hpp"

namespace pinfold {

std::string mate_report(const Design& design, const Mating& mating);

}  // namespace pinfold
