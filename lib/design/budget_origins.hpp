// Where the stages and loads of a budget take their power from: names and ports resolved.
#pragma once

#include "design/read_port.hpp"

namespace pinfold {

/// What a stage or load says of its origin.
struct WrittenOrigin {
    std::string from;  ///< a battery or stage
    Mark from_at;
    std::optional<PortRef> port;  ///< where it sits, if behind a promise
    std::string supply;           ///< which of the port's; empty if there is but one
    Mark carry_at;
};

struct WrittenOrigins {
    std::vector<WrittenOrigin> of_stages, of_loads;  ///< in the order of the budget's
};

/// Sets every `from` and puts the stages in order, each after the one it takes its power from;
/// false, with the faults told, if that cannot be.
bool resolve_origins(Budget& budget, const WrittenOrigins& written, ReaderDesk& desk);

}  // namespace pinfold
