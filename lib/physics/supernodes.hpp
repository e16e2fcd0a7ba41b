// Supernodes: nodes of a network that ideal sources hold at fixed voltages from each other.
#pragma once

#include <cstddef>
#include <vector>

#include "physics/network.hpp"

namespace pinfold {

/// Joins the nodes of a network by its sources, and the supernodes by its resistors into pieces.
class Supernodes {
public:
    explicit Supernodes(const Network& network);

    /// Volts of a node above its supernode.
    double rise(std::size_t node) const { return rise_[node]; }
    /// The unknown of a node's supernode, counted from 0; below 0 if it is held at nothing.
    int unknown(std::size_t node) const { return unknown_[top_[node]]; }
    std::size_t unknowns() const { return unknowns_; }

    /// Amperes out of the plus of each source, from those that leave each node by other ways.
    std::vector<Amperes> given(const Network& network, std::vector<double> leaving) const;

private:
    std::size_t climb(std::size_t node);
    void join(const VoltageSource& source);
    void number(const Network& network);

    std::vector<std::size_t> top_;  ///< of each node
    std::vector<double> rise_;
    std::vector<bool> closes_loop_;  ///< by source
    std::vector<int> unknown_;       ///< by top
    std::size_t unknowns_ = 0;
};

}  // namespace pinfold
