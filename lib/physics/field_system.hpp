// The equations of a mesh: charges for each conductor at one volt, with and without dielectrics.
#pragma once

#include "physics/field_mesh.hpp"
#include "physics/per_metre.hpp"

namespace pinfold::field {

/// Solves the charges on a mesh; everything of the field solution but resistance and error.
FieldSolution solve_mesh(const Outline& outline, const Mesh& mesh);

}  // namespace pinfold::field
