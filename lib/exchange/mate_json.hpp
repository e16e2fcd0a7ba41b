// The mating of two adapters as JSON, schema pinfold-mate/1.
#pragma once

#include <string>

#include "check/mate.hpp"

namespace pinfold {

/// Keys: `schema`, `mates`, `touch_a`, `touch_b`, `order` (straight, mirrored, either), `contacts`
/// [{`a`, `conductor`, `b` (numbers or null), `signal_a`, `signal_b`, `same`}], `findings` as in
/// the check.
std::string mate_json(const Mating& mating);

}  // namespace pinfold
