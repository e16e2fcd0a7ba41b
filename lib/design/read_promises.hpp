// Reading what a design promises, the leads that help to keep it, and what its user accepts.
#pragma once

#include "design/name_index.hpp"

namespace pinfold {

void read_carry(const Yaml& yaml, const NameIndex& names, ReaderDesk& desk);
void read_lead(const Yaml::Entry& entry, const NameIndex& names, ReaderDesk& desk);
void read_acceptance(const Yaml& yaml, ReaderDesk& desk);

}  // namespace pinfold
