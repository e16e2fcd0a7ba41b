// A link with the ground inside each pair, to break in tests of lines.
#pragma once

#include "check/bench.hpp"

namespace pinfold {

/// The bench's link with the ground inside each pair, as the plug's own order has it.
inline HdmiLink ground_inside() {
    HdmiLink link;
    link.base = {"GND", "D2+",  "GND", "D2-", "D1+", "GND", "D1-", "SDA", "SCL", "5V",
                 "HPD", "UTIL", "CEC", "D0+", "GND", "D0-", "CK+", "GND", "CK-", "GND"};
    link.lid = reversed(link.base);
    return link;
}

}  // namespace pinfold
