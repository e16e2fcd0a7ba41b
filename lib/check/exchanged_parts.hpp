// Exchanged parts: two connectors of a netlist that bear each other's reference.
#pragma once

#include <optional>
#include <utility>

#include "check/slips.hpp"

namespace pinfold {

/// A way to lay the pads, and what is wrong with them then.
struct PadReading {
    LaidPads laid;
    PadDiagnosis diagnosis;

    /// All that would have to be told; parts with extra pads count once each.
    std::size_t count() const;
};
PadReading read_pads(const PadTable& table, const std::vector<PortMatch>& ports);

/// The two ports whose parts are best exchanged, if there is less to tell then; `reading` becomes
/// what is left, `ports` the matches exchanged.
std::optional<std::pair<std::size_t, std::size_t>> exchange_parts(const PadTable& table,
                                                                  std::vector<PortMatch>& ports,
                                                                  PadReading& reading);

}  // namespace pinfold
