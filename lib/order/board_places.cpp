#include "order/board_places.hpp"

#include <algorithm>
#include <cmath>

#include "breakout/usual_pads.hpp"

namespace pinfold {
namespace {

/// Places of a port's contacts across its board in micrometres, the middle at nothing, contact 1
/// the least.
std::vector<int> pad_row(const Design& design, const Port& port) {
    const UsualPads usual = usual_pads(design, port);
    const int pitch_um = static_cast<int>(std::lround(usual.pitch_mm * 1000));
    std::vector<int> row;
    for (const PadCell& cell : usual.cells) row.push_back(cell.column * pitch_um);
    if (row.empty()) return row;
    const auto [least, most] = std::ranges::minmax(row);
    const int middle = (least + most) / 2;
    for (int& place : row) place -= middle;
    return row;
}

/// Two ribbon receptacles on opposite edges of a board run against each other when both have
/// contact 1 on the same hand.
bool run_against(const Port& mouth, const Port& other) {
    return other.ribbon && mouth.ribbon && mouth.ribbon->mouth.first == other.ribbon->mouth.first;
}

/// What a contact is joined to, and where it lies from the first one of the board on.
using PlacedPieces = std::vector<std::pair<int, std::uint32_t>>;

PlacedPieces in_a_row(const Design& design, const Wiring& wiring, const PortRef& mouth,
                      const std::set<PortRef>& undecided) {
    const Board& board = design.boards[mouth.board];
    PlacedPieces all;
    int begin = 0;
    constexpr int gap = 2000;  // between two connectors beside each other; invented
    for (std::size_t p = 0; p < board.ports.size(); ++p) {
        if (p == mouth.port || undecided.contains({mouth.board, p})) continue;
        std::vector<int> row = pad_row(design, board.ports[p]);
        if (row.empty()) continue;
        if (run_against(board.ports[mouth.port], board.ports[p])) {
            for (int& place : row) place = -place;
        }
        const auto [least, most] = std::ranges::minmax(row);
        for (std::size_t i = 0; i < row.size(); ++i) {
            const Point point = wiring.point_of(ContactRef{{mouth.board, p}, i});
            all.emplace_back(begin + row[i] - least, wiring.piece_of(point));
        }
        begin += most - least + gap;
    }
    const int middle = (begin - gap) / 2;
    for (auto& [place, piece] : all) place -= middle;
    return all;
}

}  // namespace

std::map<std::uint32_t, PadPlaces> board_places(const Design& design, const Wiring& wiring,
                                                const RibbonTip& tip,
                                                const std::set<PortRef>& undecided) {
    const RibbonEnds& ends = wiring.ends_of(tip.ribbon);
    const auto& seat = tip.end == End::a ? ends.a : ends.b;
    std::map<std::uint32_t, PadPlaces> places;
    if (!seat || design.boards[design.seats[*seat].port.board].is_device) return places;
    const auto& seating = wiring.seating_of(tip.ribbon);
    const bool turned = tip.end == End::b && seating && seating->order == Order::mirrored;
    for (const auto& [place, piece] :
         in_a_row(design, wiring, design.seats[*seat].port, undecided)) {
        places[piece].push_back(turned ? -place : place);
    }
    for (auto& [piece, found] : places) {
        std::ranges::sort(found);
        found.erase(std::unique(found.begin(), found.end()), found.end());
    }
    return places;
}

}  // namespace pinfold
