#include "check/way_delay.hpp"

#include "physics/conductor.hpp"

namespace pinfold {
namespace {

constexpr double lead_permittivity = 1.8;  ///< from memory, see the header

void add(Picoseconds time, HalfDelay& half) {
    half.delay = half.delay.value_or(Picoseconds(0.0)) + time;
}

void add_landing(const Design& design, const Landing& landing, HalfDelay& half) {
    for (const TraceLeg& leg : landing.traces) {
        if (!leg.length) continue;
        half.boards.insert(design.boards[leg.to.port.board].name);
        half.contacts.push_back(leg.to);
    }
    const Picoseconds traces = trace_delay(design, landing);
    if (traces.value() > 0.0) add(traces, half);
    for (const std::size_t lead : landing.leads) {
        add(delay_along(design.leads[lead].length, lead_permittivity), half);
    }
}

HalfDelay half_delay(const Design& design, RibbonLines& ribbons, const HalfWay& way,
                     const HalfWay& other) {
    HalfDelay half;
    for (const Landing& landing : way.landings) add_landing(design, landing, half);
    for (std::size_t i = 0; i < way.ribbons.size(); ++i) {
        const RibbonLeg& leg = way.ribbons[i];
        add(ribbons.delay_of(leg, i < other.ribbons.size() ? other.ribbons[i] : leg), half);
    }
    return half;
}

}  // namespace

WayDelay delay_of(const Design& design, RibbonLines& ribbons, const PairWay& way) {
    return {half_delay(design, ribbons, way.plus, way.minus),
            half_delay(design, ribbons, way.minus, way.plus)};
}

Picoseconds trace_delay(const Design& design, const Landing& landing) {
    Picoseconds delay(0.0);
    for (const TraceLeg& leg : landing.traces) {
        const double permittivity = design.boards[leg.to.port.board].permittivity;
        if (leg.length) delay = delay + delay_along(*leg.length, permittivity);
    }
    return delay;
}

}  // namespace pinfold
