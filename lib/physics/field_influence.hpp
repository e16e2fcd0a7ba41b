// The influence of charges: what a unit on each point of a mesh does at chosen others.
#pragma once

#include <Eigen/Dense>
#include <vector>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// A row for each chosen point: the potential at a point of metal, the field along the normal at a
/// point of a face, for a charge of 2 pi eps0 per length on each point of the mesh.
///
/// Two panels that stand to each other as two others did are not computed again: equal conductors
/// at equal pitch cost little more than one.
Rows influence_of(const Outline& outline, const Mesh& mesh, const std::vector<std::size_t>& chosen);

}  // namespace pinfold::field
