// Mirrors of a mesh: which point stands where another is seen, so that it is solved in parts.
#pragma once

#include <vector>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

/// The ways a mesh maps onto itself, and one point for each set that maps onto one another.
///
/// The first way is none at all; then left and right exchanged, up and down, or both.
struct Mirrors {
    std::vector<std::vector<std::size_t>> images;  ///< of each point, for each way
    std::vector<std::size_t> chosen;               ///< one point of each set, those of metal first
};

/// A part of all charges: even or odd in each mirror. The parts add up to any charge.
struct Part {
    std::vector<double> signs;        ///< 1 or -1 for each way
    std::vector<std::size_t> points;  ///< of `chosen`, those that bear charge in this part
    bool even() const;
};

/// Finds the mirrors of geometry and media alike.
Mirrors mirrors_of(const Outline& outline, const Mesh& mesh);

std::vector<Part> parts_of(const Mirrors& mirrors);

}  // namespace pinfold::field
