#include "check/undecided.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

void add_undecided(const Board& board, Findings& findings) {
    for (const Port& port : board.ports) {
        if (!port.best) continue;
        const std::string name = fmt::format("{}.{}", board.name, port.name);
        findings.push_back(
            {Severity::error,
             "order-open",
             fmt::format("the order of {} is left open; run 'pinfold order' to have the best one "
                         "chosen",
                         name),
             *port.best,
             {},
             {name},
             {}});
    }
}

void require_none(Findings open) {
    if (!open.empty()) throw InputError(std::move(open));
}

}  // namespace

Findings undecided(const Design& design) {
    Findings findings;
    for (const Board& board : design.boards) add_undecided(board, findings);
    return findings;
}

void require_decided(const Design& design) { require_none(undecided(design)); }

void require_decided(const Design& design, std::size_t board) {
    Findings findings;
    add_undecided(design.boards[board], findings);
    require_none(std::move(findings));
}

}  // namespace pinfold
