// Stack-ups: the layers of a board around its traces, and what the traces of its pairs are.
#pragma once

#include <optional>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// Solder mask over the traces.
struct SolderMask {
    Millimetres thickness;  ///< above the copper
    double er = 1.0;
    double loss = 0.0;  ///< loss tangent
};

/// The layers around the traces of one outer side of a board.
struct StackUp {
    Millimetres copper;      ///< thickness of the traces
    Millimetres dielectric;  ///< between them and the plane; without one, the whole board
    double er = 1.0;         ///< of the dielectric
    double loss = 0.0;       ///< loss tangent
    bool plane = true;
    std::optional<SolderMask> mask;
    Mark at;
};

/// The two traces of a pair, side by side.
struct PairTrace {
    Millimetres width;                      ///< of each
    Millimetres gap;                        ///< between them
    std::optional<Millimetres> ground_gap;  ///< to the ground copper on both sides, if it is there
    Mark at;
};

}  // namespace pinfold
