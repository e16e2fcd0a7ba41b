// Line measures: what ribbons and boards do to every fast pair of a design, conductor by conductor.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/line_memory.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// What a line brings a pair.
struct PairLine {
    std::size_t pair = 0;              ///< in the interface of the near port
    std::string name;                  ///< of the pair
    std::string ribbon;                ///< where its impedance is furthest from what is wanted
    PairImpedance worst;               ///< there: with every other signal held at ground
    Picoseconds delay;                 ///< from port to port, as far as lengths are known
    Picoseconds skew;                  ///< plus after minus
    bool listened = true;              ///< a clock has no eye here
    std::optional<PairResult> result;  ///< nothing without a rate, or where it was not tried
    /// The pair heard loudest, `D0 of camera.link` if it is of another promise; empty if none is.
    std::string aggressor;
    Decibels crosstalk;  ///< of that one, the worst in band
};

/// What a pair meets on the traces of one board.
struct TracesOnBoard {
    std::string board, pair;
    PairImpedance impedance;
};

/// One promise over one row of ribbons, all its pairs together.
struct LineGroup {
    std::size_t carry = 0;
    std::vector<std::string> ribbons;
    std::vector<PairLine> pairs;
    std::vector<TracesOnBoard> traces;  ///< of boards that have a stack-up
    ChannelPlan plan;
    std::optional<Limit> limit;          ///< of the interface, at the promised rate
    Hertz ground_resonance;              ///< the lowest; nothing over a shield
    Hertz valid_to;                      ///< of the quasi-static model; the lowest
    double error_estimate = 0.0;         ///< of the field, relative
    bool untried = false;                ///< its channel was more work than the memory allows
    std::vector<std::string> heard;      ///< of other promises, `D0 of camera.link`
    std::vector<std::string> uncounted;  ///< ribbons with further pairs, whose way is not known

    /// What is sent: the least swing the interface allows, else 1 V.
    Volts swing() const;
    /// What an eye leaves of it.
    Volts eye_of(const PairLine& pair) const { return pair.result->eye.opening * swing(); }
};

/// What the impedance of a pair may be.
struct ImpedanceWindow {
    Ohms least, most;
};
std::optional<ImpedanceWindow> window_of(const std::optional<Limit>& limit);

/// Solves every ribbon's section and every channel of fast pairs that arrive over ribbons.
///
/// Grounds stay conductors, joined by the boards through their contacts. Assumed: supplies end in
/// their decoupling, as grounds do; single signals end in 50 ohm; contacts have what the
/// receptacle's pin map gives, else 50 mohm and 1 nH (common practice); traces of a board without a
/// stack-up are matched, 50 ohm a half, without loss, as long as the board's file says. With one
/// they are solved like a ribbon's section: side by side as far as the shorter half goes, the rest
/// of the longer one alone. A pair that goes over leads, or a ribbon without any ground conductor,
/// has no line. Pairs hear all others on their ribbons: those of other promises at the rates these
/// state (else at the same), with what these send, from port to port as far as they run beside
/// them. So do they hear the single signals of a promise that states a rate and has no pairs; how
/// fast others are nobody says.
std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring,
                                     LineMemory& memory);

/// The same for some promises, in rising order.
std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring, LineMemory& memory,
                                     const std::vector<std::size_t>& carries);

/// The ports of the group's scattering: plus, minus of each pair at the near port, then at the far.
std::vector<std::string> port_names(const Design& design, const LineGroup& group);

}  // namespace pinfold
