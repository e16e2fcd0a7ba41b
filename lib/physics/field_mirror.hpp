// Mirrors of a mesh: which point stands where another is seen, so that it is solved in parts.
#pragma once

#include <Eigen/Dense>
#include <vector>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

/// Things that the ways of a mirror exchange, in sets that map onto one another.
struct Sets {
    std::vector<std::vector<std::size_t>> images;  ///< of each thing, for each way
    std::vector<std::size_t> chosen;               ///< the first thing of each set
    std::vector<std::size_t> set_of;               ///< of each thing
    std::vector<std::size_t> way_to;               ///< takes the chosen one of its set to it
    std::vector<double> sizes;                     ///< how many things a set has
};

/// The ways a mesh maps onto itself. The first is none at all; then left and right exchanged, up
/// and down, or both. Sets of points on metal come first.
struct Mirrors {
    Sets points;
    Sets conductors;
};

/// Which sets bear charge in a part, and where in its equations they stand.
struct Places {
    std::vector<Eigen::Index> of_set;  ///< -1: charge and voltage of such a set are nothing here
    Eigen::Index count = 0;
};

/// A part of all charges: even or odd in each mirror. The parts add up to any charge.
struct Part {
    std::vector<double> signs;  ///< 1 or -1 for each way
    Places points;
    Places conductors;
    Eigen::Index metal = 0;  ///< of the places, those on metal: the first

    /// The sign of a thing against the chosen one of its set.
    double sign(const Sets& sets, std::size_t thing) const { return signs[sets.way_to[thing]]; }
    bool even() const;
};

/// Finds the mirrors of geometry and media alike.
Mirrors mirrors_of(const Outline& outline, const Mesh& mesh);

/// The parts in which some conductor can have a voltage.
std::vector<Part> parts_of(const Mirrors& mirrors, const Mesh& mesh);

}  // namespace pinfold::field
