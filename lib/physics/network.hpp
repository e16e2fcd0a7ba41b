// Resistive networks: voltages and currents when currents are drawn from it.
#pragma once

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

/// Voltages of all nodes against node 0, and the current in each resistor from one to other.
struct NetworkSolution {
    std::vector<Volts> voltages;
    std::vector<Amperes> currents;
};

/// Solves a connected network of `nodes` nodes, node 0 held at zero volts; what is drawn flows in
/// there.
///
/// Kirchhoff's current law at every node (nodal analysis), solved by a sparse LDL^T factorisation.
/// All resistances must be above nothing and all nodes connected to node 0.
NetworkSolution solve_network(std::size_t nodes, const std::vector<Resistor>& resistors,
                              const std::vector<Injection>& injections);

}  // namespace pinfold
