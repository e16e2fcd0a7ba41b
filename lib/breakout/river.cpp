#include "breakout/river.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

constexpr double octant_tangent = 0.41421356237309503;  // tan(22.5 degrees)
/// Where a trace that goes right may begin, its neighbour on the right being laid. The other hand
/// is this one in the mirror.
double begin_beside(const Current& trace, const Current& beside, double beside_begins,
                    double spacing, double direction) {
    const double room = trace.net == beside.net ? 0.0 : spacing;
    const double edge = direction * beside.from_mm - room;
    if (direction * trace.to_mm <= edge + hair) return 0.0;  // it never gets there
    return std::max(0.0, direction * trace.from_mm - edge + beside_begins + octant_tangent * room);
}

}  // namespace

River lay_river(const std::vector<Current>& currents, double spacing) {
    River river{std::vector<double>(currents.size(), 0.0), 0.0};
    const auto goes = [&](std::size_t i, double direction) {
        return direction * (currents[i].to_mm - currents[i].from_mm) > hair;
    };
    for (std::size_t i = currents.size(); i-- > 1;) {
        if (!goes(i, 1.0) || !goes(i - 1, 1.0)) continue;
        river.begins_mm[i - 1] =
            begin_beside(currents[i - 1], currents[i], river.begins_mm[i], spacing, 1.0);
    }
    for (std::size_t i = 1; i < currents.size(); ++i) {
        if (!goes(i, -1.0) || !goes(i - 1, -1.0)) continue;
        river.begins_mm[i] =
            begin_beside(currents[i], currents[i - 1], river.begins_mm[i - 1], spacing, -1.0);
    }
    for (std::size_t i = 0; i < currents.size(); ++i) {
        const double aside = std::abs(currents[i].to_mm - currents[i].from_mm);
        if (aside > hair) {
            river.height_mm = std::max(river.height_mm, river.begins_mm[i] + aside);
        }
    }
    return river;
}

}  // namespace pinfold
