#include "pinmap/meter_words.hpp"

#include <fmt/format.h>

namespace pinfold {

std::string in_words(MeterKind kind, double least, double most) {
    if (kind == MeterKind::diode) return fmt::format("{:.3g} to {:.3g} V, diode", least, most);
    const double unit = most >= 1e6 ? 1e6 : most >= 1e3 ? 1e3 : 1;
    return fmt::format("{:.3g} to {:.3g} {}", least / unit, most / unit,
                       unit > 1e3   ? "Mohm"
                       : unit > 1.0 ? "kohm"
                                    : "ohm");
}

std::string in_words(const MeterWindow& window) {
    return in_words(window.kind, window.least, window.most);
}

}  // namespace pinfold
