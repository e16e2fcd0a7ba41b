#include "boards.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/spelling.hpp"

namespace pinfold::cli {
namespace {

[[noreturn]] void refuse_board(const Design& design, const std::string& name) {
    std::vector<std::string> boards;
    Mark at;
    bool is_device = false;
    for (const Board& board : design.boards) {
        if (!board.is_device) boards.push_back(board.name);
        if (board.name != name) continue;
        is_device = true;
        at = board.at;
    }
    const std::string what =
        is_device ? fmt::format("'{}' is a device; a netlist is made of a board of your own", name)
                  : fmt::format("this design has no board '{}'", name);
    throw InputError(
        {{Severity::error, is_device ? "board-device" : "board-unknown",
          fmt::format("{}{}; its boards: {}", what, did_you_mean(name, boards),
                      boards.empty() ? "none" : fmt::format("{}", fmt::join(boards, ", "))),
          at}});
}

}  // namespace

std::size_t find_board(const Design& design, const std::string& name) {
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (design.boards[b].name == name && !design.boards[b].is_device) return b;
    }
    refuse_board(design, name);
}

}  // namespace pinfold::cli
