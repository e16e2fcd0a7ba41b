// Lines: coupled conductors with losses, solved over frequency between their ends.
#pragma once

#include <Eigen/Dense>
#include <compare>
#include <vector>

#include "base/units.hpp"
#include "physics/metal_loss.hpp"

namespace pinfold {

/// Series impedance (ohm/m) and shunt admittance (S/m) of n conductors against their reference.
struct Immittance {
    Eigen::MatrixXcd series;
    Eigen::MatrixXcd shunt;
};

/// What a line per metre is at a frequency, from 0 Hz up.
///
/// The metal as `MetalLoss` says. The capacitance falls by 2/pi of its loss for each factor e in
/// frequency, from its value at 1 GHz: the causal partner of a constant loss tangent (power law of
/// the permittivity, Svensson and Dermer 2001, from memory).
Immittance immittance_at(const PerMetre& per_metre, Hertz frequency);
/// The same with the line's metal at hand, for many frequencies.
Immittance immittance_at(const PerMetre& per_metre, const MetalLoss& metal, Hertz frequency);

/// A contact: what it adds in series.
struct ContactImpedance {
    Ohms resistance;
    Henries inductance;

    friend auto operator<=>(const ContactImpedance&, const ContactImpedance&) = default;
};

/// How a conductor ends. `port`: where a signal comes in, `reference_ohm` against the board's
/// ground. `tied`: to that ground. `loaded`: to that ground through `reference_ohm`. `open`: not at
/// all.
enum class Ending { port, tied, loaded, open };

/// One end of a line: the board there joins all its grounds.
struct LineEnd {
    std::vector<Ending> endings;  ///< of the conductors, in the order of the matrices
    ContactImpedance contact;     ///< of every conductor that is not open
    /// The line's reference is a conductor too and has such a contact; a plane has none.
    bool reference_has_contact = false;
};

/// Ports are measured against this resistance, each half of a pair on its own.
constexpr double reference_ohm = 50.0;

/// A line with both its ends. A conductor is a port at both ends or at neither.
struct EndedLine {
    PerMetre per_metre;
    Millimetres length;
    LineEnd a, b;
};

/// Scattering of the m ports at end a, then the m at end b, in the order of the conductors: 2m by
/// 2m at one frequency, against `reference_ohm`.
///
/// Exact: the line equations are solved in closed form, V = cosh(sqrt(ZY) x), with the functions of
/// the matrix ZY taken by power series and doubling, so that equal modes, half waves without loss
/// and direct current are no special cases. Ground conductors that are not the reference keep
/// their own currents along the line; only the ends join them.
Eigen::MatrixXcd scattering(const EndedLine& line, Hertz frequency);

/// The same from an immittance at hand.
Eigen::MatrixXcd scattering(const Immittance& immittance, const EndedLine& line, Hertz frequency);

}  // namespace pinfold
