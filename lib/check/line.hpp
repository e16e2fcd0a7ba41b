// Line measures: what ribbons and boards do to every fast pair of a design, conductor by conductor.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/wiring.hpp"
#include "physics/channel.hpp"
#include "physics/pair_impedance.hpp"

namespace pinfold {

/// What a line brings a pair, and what its interface wants.
struct PairLine {
    std::size_t carry = 0;
    std::string name;                  ///< of the pair
    std::string ribbon;                ///< where its impedance is furthest from what is wanted
    PairImpedance worst;               ///< there: with every other signal held at ground
    Picoseconds delay;                 ///< from port to port, as far as lengths are known
    Picoseconds skew;                  ///< plus after minus, from unequal traces
    bool listened = true;              ///< a clock has no eye here
    std::optional<PairResult> result;  ///< nothing where the promise states no rate
    std::string aggressor;             ///< the pair heard loudest; empty if it is alone
    Decibels crosstalk;                ///< of that one, the worst in band
    std::optional<Ohms> least_impedance, most_impedance;
    std::string source;  ///< of the limits
};

/// One promise over one row of ribbons, all its pairs together.
struct LineGroup {
    std::size_t carry = 0;
    std::vector<std::string> ribbons;
    std::vector<PairLine> pairs;
    std::vector<std::string>
        port_names;                      ///< of the scattering: plus, minus of each pair, near; far
    Sweep sweep;                         ///< empty without a rate
    Hertz ground_resonance;              ///< the lowest; nothing over a shield
    Hertz valid_to;                      ///< a tenth and a half of a wavelength across the ribbon
    double error_estimate = 0.0;         ///< of the field, relative
    std::vector<std::string> uncounted;  ///< ribbons where pairs of other promises run too
};

/// Solves every ribbon's section and every channel of fast pairs that arrive over ribbons.
///
/// Grounds stay conductors, joined by the boards through their contacts. Assumed: supplies end in
/// their decoupling, as grounds do; single signals end in 50 ohm; contacts have 1 nH (common
/// practice) and the resistance of the receptacle's pin map (50 mohm where it gives none); traces
/// are matched, 50 ohm a half, without loss, as long as the board's file says. A pair that goes
/// over leads, or a ribbon without any ground conductor, has no line.
std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring);

}  // namespace pinfold
