// Slips: one mistake that puts many pads of a connector on wrong nets, found by undoing it.
#pragma once

#include "check/pad_table.hpp"

namespace pinfold {

/// A connector drawn in another order than the board file's.
struct Slip {
    const char* rule = "";
    std::size_t port = 0;
    std::string how;  ///< `contact k lies where contact 20 - k belongs`
    /// For each pad of the port: the pad whose place it was given; none where it fell off the end.
    std::vector<std::pair<std::size_t, std::size_t>> moves;
};

/// The pads as they would lie without a slip.
std::vector<ComparedPad> without(const Slip& slip, std::vector<ComparedPad> pads);

/// What is wrong with the pads: connectors in another order first, then what is left.
struct PadDiagnosis {
    std::vector<Slip> slips;
    std::vector<PadCause> causes;
    std::size_t count() const { return slips.size() + causes.size(); }
};
PadDiagnosis diagnose_pads(const std::vector<ComparedPad>& pads, std::size_t ports);

}  // namespace pinfold
