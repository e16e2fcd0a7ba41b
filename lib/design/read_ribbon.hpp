// Reading one ribbon of a design: its type, length, copper and lay.
#pragma once

#include "design/read_port.hpp"

namespace pinfold {

Ribbon read_ribbon(const Yaml::Entry& entry, ReaderDesk& desk);

}  // namespace pinfold
