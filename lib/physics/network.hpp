// Supply networks: voltages and currents among resistors, sources and loads, converters included.
#pragma once

#include <variant>
#include <vector>

#include "base/units.hpp"

namespace pinfold {

/// A resistor between two nodes.
struct Resistor {
    std::size_t one = 0;
    std::size_t other = 0;
    Ohms resistance;
};

/// Current that enters the network at a node (negative: is drawn from it).
struct Injection {
    std::size_t node = 0;
    Amperes current;
};

/// Holds one node above another, whatever current that takes.
struct VoltageSource {
    std::size_t plus = 0;
    std::size_t minus = 0;
    Volts voltage;
};

/// A converter's input: draws more current as its voltage falls.
struct PowerLoad {
    std::size_t plus = 0;
    std::size_t minus = 0;
    Watts power;
};

/// What is drawn from it must return to it: the injections of every piece that hangs together
/// (through resistors and sources) add up to nothing, but for the piece of node 0, which returns
/// what is left.
struct Network {
    std::size_t nodes = 0;
    std::vector<Resistor> resistors;
    std::vector<Injection> injections;
    std::vector<VoltageSource> sources;
    std::vector<PowerLoad> loads;
};

/// Voltages against the first node of each piece, currents from one to other in each resistor, out
/// of the plus of each source and into the plus of each load.
struct NetworkSolution {
    std::vector<Volts> voltages;
    std::vector<Amperes> currents;
    std::vector<Amperes> given;
    std::vector<Amperes> drawn;
};

/// The loads ask more than the network can bring them: no voltages satisfy them all.
struct Collapse {
    double share = 0.0;  ///< of all their powers alike, the most that can be brought (to 1e-6)
};

/// Solves a network; of the two voltages at which a converter could draw its power, the high one.
///
/// Kirchhoff's current law at every node (nodal analysis, ideal sources joined into supernodes),
/// solved by a sparse LDL^T factorisation. Loads by power: Newton's method from the voltages of
/// the network without them. Where no load raises another's voltage the iterates fall monotonously
/// to the highest solution (Newton-Baluev theorem for convex functions; Ortega and Rheinboldt,
/// Iterative Solution of Nonlinear Equations, 13.3.4, from memory). A solution is taken only where
/// the linearised network is positive definite: there, and on the low branch never, a converter
/// that sags a little recovers. If Newton fails, the powers are raised from nothing step by step.
///
/// Resistances must be above nothing. A source that closes a loop of sources gives no current. A
/// power load must stand between nodes of one piece.
std::variant<NetworkSolution, Collapse> solve_network(const Network& network);

}  // namespace pinfold
