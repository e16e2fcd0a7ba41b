// Groups: classes that a level need not tell apart.
#pragma once

#include "order/level.hpp"

namespace pinfold {

/// Puts the classes that are alike to all aims so far into one group, and counts each group.
void group_classes(const Classes& classes, const std::vector<Aim>& aims, Level& level);

}  // namespace pinfold
