#include "check/line_singles.hpp"

#include <algorithm>
#include <tuple>

#include "check/ribbon_line.hpp"

namespace pinfold {

std::vector<SingleLine> measure_singles(const Design& design, const Wiring& wiring,
                                        LineMemory& memory) {
    RibbonLines ribbons(design, wiring, memory);
    std::vector<SingleLine> singles;
    for (const SingleWay& way : single_ways(design, wiring)) {
        const Interface& near = *design.interface_of(design.port(design.carries[way.carry].from));
        for (const RibbonLeg& leg : way.way.ribbons) {
            if (!ribbons.can_solve(leg)) continue;
            const SingleImpedance impedance = ribbons.single_on(leg);
            const double length = design.ribbons[leg.ribbon].length.value();
            singles.push_back({way.carry, leg.ribbon, near.signals[way.signal].name, impedance,
                               Picoseconds(impedance.delay * 1e9 * length)});
        }
    }
    std::ranges::stable_sort(singles, {}, [](const SingleLine& single) {
        return std::tuple(single.carry, single.ribbon);
    });
    return singles;
}

}  // namespace pinfold
