// Board places: where the connectors of the board at a ribbon's end have what the ribbon carries.
#pragma once

#include <map>
#include <set>

#include "design/wiring.hpp"
#include "order/problem.hpp"

namespace pinfold {

/// One end of a ribbon, by its place among the design's.
struct RibbonTip {
    std::size_t ribbon = 0;
    End end = End::a;
};

/// Places of each piece of the wiring across the board, by its number; none on a device. The ports
/// stand beside each other, those `undecided` left out, their middle opposite the ribbon's, contact
/// 1 on the side where the receptacle has it.
std::map<std::uint32_t, PadPlaces> board_places(const Design& design, const Wiring& wiring,
                                                const RibbonTip& tip,
                                                const std::set<PortRef>& undecided);

}  // namespace pinfold
