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

/// Of a circle of radius `a`, whose centre is `apart` from that of another of radius `b` beside,
/// around or within it, all in one unit: its coordinate in the bipolar system of both. Its charge
/// would be singular exp of it times its radius from its centre, so the modes of its charge fall
/// off by exp of it each.
/// Source: any textbook of potential theory.
double bipolar_of(double a, double b, double apart);

/// Two wires with less than this between them, as `bipolar_of` has it, are not solved.
constexpr double least_bipolar = 0.02;

/// Whether a lies wholly within b, touching allowed.
bool within(const SectionShape& a, const SectionShape& b);

/// Of the box around it, square millimetres.
double area_of(const SectionShape& shape);

/// Area that two rectangles share, square millimetres.
double shared_area(const SectionShape& a, const SectionShape& b);

}  // namespace pinfold
