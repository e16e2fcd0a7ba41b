// The outline of a section: every stretch where two media meet, and how sharp its ends are.
#pragma once

#include <vector>

#include "physics/field_space.hpp"
#include "physics/section.hpp"

namespace pinfold::field {

/// What fills a region: relative permittivity, and its product with the loss tangent.
struct Medium {
    double er = 1.0;
    double er_loss = 0.0;
    friend bool operator==(const Medium&, const Medium&) = default;
};

/// A straight stretch along x or y, or a whole circle, with one medium on each side.
///
/// The normal points from `behind` to `before`: up, right, or out of the circle. A stretch of metal
/// has the medium outside it as both. Near an end the charge goes as distance^(1/sharpness - 1).
struct Stretch {
    Point from, to;           ///< ends, of a straight stretch: to the right or upwards
    Point centre;             ///< of a circle
    double radius = 0.0;      ///< 0: straight
    double sharp_from = 1.0;  ///< 1: smooth, 1.5: a square corner of metal in one medium
    double sharp_to = 1.0;
    int conductor = -1;  ///< whose wall it is; -1: a face between dielectrics
    Medium behind, before;

    bool metal() const { return conductor >= 0; }
    bool round() const { return radius > 0.0; }
};

struct Outline {
    Space space;
    std::vector<Stretch> stretches;  ///< those of metal first
    std::size_t conductors = 0;
    double size = 1.0;  ///< mm, the wider of width and height of all metal
};

/// The outline of a solvable section, moved so that its lower plane lies at y = 0.
Outline outline_of(const Section& section);

}  // namespace pinfold::field
