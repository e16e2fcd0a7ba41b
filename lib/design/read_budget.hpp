// Reading the power budget of a design.
#pragma once

#include "design/name_index.hpp"

namespace pinfold {

/// Reads the section `budget` into `desk.design`, whose promises are read already.
///
/// Complains of names that nobody has or that stand twice, stages that feed each other in a ring,
/// windows upside down, efficiencies above 100 %, loads that grow smaller towards the peak, and of
/// a load or voltage that the promise on the way states too.
void read_budget(const Yaml& yaml, const NameIndex& names, ReaderDesk& desk);

}  // namespace pinfold
