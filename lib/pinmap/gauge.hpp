// Wire gauges: the metal section that a gauge stands for.
#pragma once

#include <optional>
#include <string_view>

#include "base/units.hpp"

namespace pinfold {

/// The section of "AWG 28" or "0.09 mm2"; nothing for any other text.
///
/// AWG n is a solid wire of diameter 0.127 mm * 92^((36 - n) / 39), n from 0 to 40.
/// Source: ASTM B258, as in any handbook's wire table; tests/published/astm_b258.cpp.
std::optional<SquareMillimetres> read_gauge(std::string_view text);

}  // namespace pinfold
