#include "check/undecided.hpp"

#include <fmt/format.h>

namespace pinfold {

Findings undecided(const Design& design) {
    Findings findings;
    for (const Board& board : design.boards) {
        for (const Port& port : board.ports) {
            if (!port.best) continue;
            const std::string name = fmt::format("{}.{}", board.name, port.name);
            findings.push_back(
                {Severity::error,
                 "order-open",
                 fmt::format("the order of {} is left open; run 'pinfold order' to have the best "
                             "one chosen",
                             name),
                 *port.best,
                 {},
                 {name},
                 {}});
        }
    }
    return findings;
}

void require_decided(const Design& design) {
    if (Findings open = undecided(design); !open.empty()) throw InputError(std::move(open));
}

}  // namespace pinfold
