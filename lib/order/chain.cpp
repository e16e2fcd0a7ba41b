#include "order/chain.hpp"

#include <algorithm>

namespace pinfold {
namespace {

/// The seat of a ribbon in a port, if one is joined to it.
const Seat* seat_in(const Design& design, PortRef port) {
    const auto seat = std::ranges::find(design.seats, port, &Seat::port);
    return seat == design.seats.end() ? nullptr : &*seat;
}

/// From one end of the chain on, as far as boards lead on; rings end where they began.
PortRef end_of_row(const Design& design, const std::vector<RibbonEnds>& ends, std::size_t seat,
                   std::set<std::size_t>& ribbons) {
    PortRef mouth = design.seats[seat].port;
    while (leads_on(design.boards[mouth.board])) {
        const PortRef other{mouth.board, 1 - mouth.port};
        const Seat* onward = seat_in(design, other);
        if (!onward || !ribbons.insert(onward->ribbon).second) break;
        const RibbonEnds& next = ends[onward->ribbon];
        const auto far = onward->end == End::a ? next.b : next.a;
        if (!far) break;
        mouth = design.seats[*far].port;
    }
    return mouth;
}

}  // namespace

bool leads_on(const Board& board) {
    return !board.is_device && board.ports.size() == 2 &&
           std::ranges::all_of(board.ports,
                               [](const Port& port) { return port.ribbon && port.best; });
}

Chain chain_of(const Design& design, std::size_t ribbon) {
    const std::vector<RibbonEnds> ends = ribbon_ends(design);
    Chain chain{{ribbon}, {}};
    chain.mouths = {end_of_row(design, ends, *ends[ribbon].a, chain.ribbons),
                    end_of_row(design, ends, *ends[ribbon].b, chain.ribbons)};
    return chain;
}

}  // namespace pinfold
