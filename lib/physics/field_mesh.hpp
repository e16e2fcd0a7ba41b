// The mesh of an outline: panels with polynomials on them, and the points where equations hold.
#pragma once

#include <vector>

#include "physics/field_measure.hpp"
#include "physics/field_outline.hpp"

namespace pinfold::field {

/// Part of a stretch, or a circle, whose charge is one polynomial of u (one Fourier series).
struct Panel {
    Point middle;         ///< or the centre
    Point half;           ///< from the middle to the end
    double radius = 0.0;  ///< 0: straight
    Measure measure;
    int order = 1;          ///< points on it; even on a circle
    std::size_t first = 0;  ///< its first point
    std::size_t stretch = 0;

    bool round() const { return radius > 0.0; }
    std::size_t end() const { return first + static_cast<std::size_t>(order); }
    double length() const { return 2.0 * std::abs(half); }
    Point at(double u) const { return middle + measure.place(u) * half; }
};

/// Where a point of a circle with `order` of them stands; they mirror into each other both ways.
double circle_angle(int order, int point);

/// The points of all panels in a row; those of metal first.
struct Mesh {
    std::vector<Panel> panels;
    std::vector<Point> points;
    std::vector<Point> normals;
    std::vector<std::size_t> stretch_of;  ///< of each point
    std::size_t metal_points = 0;
    std::size_t metal_panels = 0;
    double tolerance = 0.0;  ///< what the charges are right to, about
};

/// The length (mm) that stands for a point of a panel: weight of its rule times the measure.
double length_share(const Panel& panel, std::size_t point);

/// A mesh for charges right to about `tolerance`: each panel so short, or of such an order, that
/// what stands beside it does not show more than that.
///
/// The charge on a panel is analytic up to the nearest corner that is not its own; on the ellipse
/// through it with foci at the panel's ends, of half axes' sum r, polynomials of order n converge
/// as r^-n (Bernstein's theorem).
Mesh mesh_of(const Outline& outline, double tolerance);

}  // namespace pinfold::field
