#include "breakout/board_breakouts.hpp"

#include <algorithm>

namespace pinfold {
namespace {

bool has_breakout(const Board& board) {
    const bool takes_ribbon =
        std::ranges::any_of(board.ports, [](const Port& port) { return port.ribbon.has_value(); });
    return !board.is_device && takes_ribbon && board.ports.size() > 1;
}

}  // namespace

std::vector<BoardBreakout> board_breakouts(const Design& design) {
    std::vector<BoardBreakout> all;
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (!has_breakout(design.boards[b])) continue;
        all.push_back({design.boards[b].name, std::nullopt, {}});
        try {
            all.back().made = breakout_of(design, b);
        } catch (const InputError& error) {
            all.back().refusal = error.findings().front().text;
        }
    }
    return all;
}

}  // namespace pinfold
