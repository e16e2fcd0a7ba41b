// Reading where a port's pads lie on its board.
#pragma once

#include "base/fields.hpp"
#include "design/design.hpp"

namespace pinfold {

/// Reads `placing: {x: 10 mm, y: 4 mm, angle: 90, side: top, ...}` of a port whose contacts stand.
///
/// The row of a one-row ribbon receptacle follows from its pitch and first contact; other parts say
/// `rows` (labels, from -x to +x, the row at the mouth first) with `pitch` and `row-distance`, or
/// `pads-at`, which also places shield pads.
std::optional<Placing> read_placing(const Yaml& yaml, const Port& port, const Design& design,
                                    Findings& findings);

}  // namespace pinfold
