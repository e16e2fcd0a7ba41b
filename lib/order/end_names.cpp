#include "order/end_names.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pinfold {

EndNames names_at(const Design& design, const Wiring& wiring, PortRef mouth) {
    const Board& board = design.boards[mouth.board];
    const auto others = std::ranges::count_if(board.ports, [&](const Port& port) {
        return &port != &board.ports[mouth.port] && !port.by_table ? !port.contacts.empty()
                                                                   : port.by_table;
    });
    EndNames names;
    for (std::size_t p = 0; p < board.ports.size(); ++p) {
        if (p == mouth.port && !board.is_device) continue;
        const Port& port = board.ports[p];
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            const PortContact& contact = port.contacts[i];
            if (!contact.net && !board.is_device) continue;
            const bool ground = contact.net && board.nets[*contact.net].ground;
            const std::string plain = ground ? "GND" : contact.name;
            const std::string full = fmt::format("{}.{}", port.name, contact.label);
            const std::uint32_t piece =
                wiring.piece_of(wiring.point_of(ContactRef{{mouth.board, p}, i}));
            names.try_emplace(piece, others > 1 && !ground ? full : plain);
        }
    }
    return names;
}

}  // namespace pinfold
