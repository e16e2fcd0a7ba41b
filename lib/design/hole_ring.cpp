#include "design/hole_ring.hpp"

#include <fmt/format.h>

namespace pinfold {

std::optional<std::string> ring_fault(Millimetres hole, Millimetres width,
                                      const std::string& copper) {
    constexpr double rounding = 1e-9;
    const double ring = (width.value() - hole.value()) / 2;
    if (ring >= least_ring.value() - rounding) return std::nullopt;
    if (ring <= 0.0) {
        return fmt::format("a hole of {:g} mm leaves nothing of {}", hole.value(), copper);
    }
    return fmt::format(
        "a hole of {:g} mm leaves a ring of {:.3g} mm of {}, and {:g} mm is the least",
        hole.value(), ring, copper, least_ring.value());
}

std::optional<std::string> via_fault(Millimetres hole, Millimetres via) {
    const auto fault = ring_fault(hole, via, fmt::format("a via of {:g} mm", via.value()));
    if (!fault) return std::nullopt;
    return *fault + "; make the via wider or the hole smaller";
}

}  // namespace pinfold
