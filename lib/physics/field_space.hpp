// The space around a section: potential and field of a line charge in the open or beside planes.
#pragma once

#include <complex>

namespace pinfold::field {

using Point = std::complex<double>;  ///< x + jy, mm, the lower plane (if any) at y = 0

/// Open space, space over one plane at y = 0, or between that and another at y = `height`.
struct Space {
    int planes = 0;
    double height = 0.0;

    /// -log of the distance, with the images: the potential at `to` of a charge of 2 pi eps0 at
    /// `from`.
    double potential(Point to, Point from) const;
    /// Its field Ex - jEy.
    Point field(Point to, Point from) const;
    /// Both without the charge itself: what its images do, finite at the charge too.
    double image_potential(Point to, Point from) const;
    Point image_field(Point to, Point from) const;
    /// Without the three charges that can come near: itself and its image in each plane.
    double far_potential(Point to, Point from) const;
    Point far_field(Point to, Point from) const;

    /// The point seen in the planes: what the image of a charge does at `to`, the charge does
    /// (with its sign turned) at one of these.
    int mirrors() const { return planes; }
    Point mirrored(Point to, int plane) const;
};

}  // namespace pinfold::field
