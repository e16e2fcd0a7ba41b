// The breakout: what a board needs to bring a ribbon's row to its connector, drawn and measured.
#pragma once

#include "breakout/match.hpp"

namespace pinfold {

/// One wire as drawn.
struct WireFigures {
    std::string name;
    double length_mm = 0.0;
    bool dives = false;
    bool fast = false;
    int crossings = 0;
};

/// The wires of a pair's halves as drawn; `extra` is what would make them alike.
struct PairFigures {
    std::string name;
    std::array<std::size_t, 2> wires{};  ///< plus, minus
    bool fast = false;
    Meander in_pair;     ///< on the shorter half
    Meander to_longest;  ///< on both halves, once they are alike, to match the longest fast pair
};

struct Breakout {
    std::string board;
    PadRows rows;
    Escape escape;
    LayerChoice layers;
    std::vector<Dive> dives;
    Tracks tracks;
    std::vector<WireFigures> wires;  ///< as in `escape`
    std::vector<PairFigures> pairs;
    int reversed = 0;                    ///< crossings were one row the other way round
    int slits = 0;                       ///< runs in the plane beneath halves of fast pairs
    double slit_mm = 0.0;                ///< of all runs in the plane
    std::vector<std::string> not_drawn;  ///< nets that join pads of one side alone

    std::size_t signal_vias() const { return 2 * dives.size(); }
    std::size_t ground_vias() const { return tracks.vias.size() - signal_vias(); }
    bool fits() const { return !tracks.placed_mm || tracks.needed_mm <= *tracks.placed_mm + 1e-9; }
    double mismatch_in_pair(const PairFigures& pair) const;
};

/// Works the breakout of a board out: fewest crossings, fewest layer changes, drawing, lengths.
///
/// Throws InputError where `pad_rows` and `fewest_crossings` do.
Breakout breakout_of(const Design& design, std::size_t board, const BreakoutWish& wish = {});

}  // namespace pinfold
