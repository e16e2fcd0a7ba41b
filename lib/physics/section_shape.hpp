// Shapes of a section: rectangles and rounds, how far apart they stand and what they share.
#pragma once

#include <complex>

#include "physics/section.hpp"

namespace pinfold {

/// Closer than this two outlines touch; typed decimals differ in their last bits.
constexpr double touching_mm = 1e-9;

/// A rectangle or a round, mm.
struct SectionShape {
    double x_min, x_max, y_min, y_max;
    bool round = false;

    std::complex<double> centre() const { return {(x_min + x_max) / 2.0, (y_min + y_max) / 2.0}; }
    double radius() const { return (x_max - x_min) / 2.0; }
    /// The point of its box nearest to another.
    std::complex<double> nearest(std::complex<double> p) const;
};

SectionShape shape_of(const SectionConductor& conductor);
SectionShape shape_of(const SectionDielectric& dielectric);

/// How far two shapes stand apart, mm; below nothing if they overlap.
double gap_between(const SectionShape& a, const SectionShape& b);

/// Whether a lies wholly within b, touching allowed.
bool within(const SectionShape& a, const SectionShape& b);

/// Of the box around it, square millimetres.
double area_of(const SectionShape& shape);

/// Area that two rectangles share, square millimetres.
double shared_area(const SectionShape& a, const SectionShape& b);

}  // namespace pinfold
