// Slips: one mistake that puts many pads of a connector on wrong nets, found by undoing it.
#pragma once

#include "check/pad_causes.hpp"
#include "check/slip_trial.hpp"

namespace pinfold {

/// A connector drawn in another order than the board file's.
struct Slip {
    const char* rule = "";
    std::size_t port = 0;
    std::string how;  ///< `contact k lies where contact 20 - k belongs`
    PadShifts moves;  ///< of every contact of the port
};

/// What is wrong with the pads: connectors in another order first, then what is left.
struct PadDiagnosis {
    std::vector<Slip> slips;
    std::vector<PadCause> causes;
    std::size_t count() const { return slips.size() + causes.size(); }
};
PadDiagnosis diagnose_pads(const std::vector<ComparedPad>& pads, std::size_t ports);

}  // namespace pinfold
