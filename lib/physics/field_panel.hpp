// What the charge on one panel does elsewhere, for a unit on each of its points.
#pragma once

#include <array>
#include <span>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

/// How many Gauss points integrate what has a pole at some distance.
class Quadrature {
public:
    explicit Quadrature(double tolerance);
    /// For a pole at a distance in half lengths of the stretch, squared; if more than `most` it is
    /// better halved.
    int points_for(double distance_squared) const;

    static constexpr int most = 8;

private:
    std::array<double, most + 1> least_{};  ///< distance, squared, for so many points
};

/// A panel with its points, in its space, and how well what it does is integrated.
struct Source {
    const Panel& panel;
    std::span<const Point> points;
    const Space& space;
    const Quadrature& quadrature;
};

/// The potential at `to` of a charge of 2 pi eps0 per length on each point of the panel, spread by
/// the polynomial (Fourier series) that is one there and nothing at the panel's other points.
/// `own` is which of the panel's points `to` is, -1 if it is none.
void potentials_of(const Source& source, Point to, int own, std::span<double> values);

/// The field along `normal` at `to`, likewise; on the panel itself the mean of its two sides.
void fields_of(const Source& source, Point to, Point normal, int own, std::span<double> values);

}  // namespace pinfold::field
