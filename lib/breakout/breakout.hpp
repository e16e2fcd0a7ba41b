// The breakout: what a board needs to bring a ribbon's row to its connector, drawn and measured.
#pragma once

#include "breakout/match.hpp"

namespace pinfold {

/// One wire as drawn.
struct WireFigures {
    std::string name;
    double length_mm = 0.0;   ///< with its meanders
    double meander_mm = 0.0;  ///< what they add
    bool dives = false;       ///< runs on the bottom layer somewhere
    bool fast = false;
    int crossings = 0;
    std::vector<CopperLayer> layers = {};  ///< from the near pad on

    double bare_mm() const { return length_mm - meander_mm; }
};

/// The wires of a pair's halves, and the meanders that make a fast pair alike. They are drawn where
/// they fit; a slow pair needs none.
struct PairFigures {
    std::string name;
    std::array<std::size_t, 2> wires{};  ///< plus, minus
    bool fast = false;
    Meander in_pair;     ///< on the shorter half
    Meander to_longest;  ///< on both halves, once they are alike, to match the longest fast pair
};

/// How far lengths are apart, in millimetres.
struct Mismatch {
    double in_pair = 0.0;                 ///< between the halves of a pair, the worst
    std::optional<double> between_pairs;  ///< longer halves of fast pairs; none if there is but one
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

    std::size_t signal_vias() const;
    std::size_t ground_vias() const { return tracks.vias.size() - signal_vias(); }
    bool fits() const { return !tracks.placed_mm || tracks.needed_mm <= *tracks.placed_mm + 1e-9; }
    /// Between the halves of a pair, as drawn or without the meanders.
    double mismatch_in_pair(const PairFigures& pair) const;
    double bare_mismatch_in_pair(const PairFigures& pair) const;
    /// Over all pairs, likewise.
    Mismatch mismatch() const;
    Mismatch bare_mismatch() const;
    bool has_meanders() const;
};

/// Works the breakout of a board out: fewest crossings, fewest layer changes, drawing,
/// meanders, lengths.
///
/// Throws InputError where `pad_rows` and `fewest_crossings` do.
Breakout breakout_of(const Design& design, std::size_t board, const BreakoutWish& wish = {});

}  // namespace pinfold
