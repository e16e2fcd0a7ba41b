#include "pinmap/gauge.hpp"

#include <cmath>
#include <numbers>

#include "base/quantity.hpp"

namespace pinfold {
namespace {

SquareMillimetres awg_section(int gauge) {
    const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    return SquareMillimetres(std::numbers::pi / 4.0 * diameter_mm * diameter_mm);
}

}  // namespace

std::optional<SquareMillimetres> read_gauge(std::string_view text) {
    if (!text.starts_with("AWG")) return read_quantity<SquareMillimetres>(text);
    text.remove_prefix(3);
    while (text.starts_with(' ')) text.remove_prefix(1);
    const std::optional<int> gauge = parse_whole(text);
    if (!gauge || *gauge < 0 || *gauge > 40) return std::nullopt;
    return awg_section(*gauge);
}

}  // namespace pinfold
