// A plain dense field solver to hold ours against: constant charge on straight segments.
#pragma once

#include <Eigen/Dense>
#include <cmath>
#include <complex>
#include <numbers>
#include <optional>
#include <vector>

#include "physics/constants.hpp"
#include "physics/section.hpp"

namespace pinfold::bench {

/// Segments across the width and the thickness of a conductor, and on a film for each step of the
/// pitch; across the edge of a film there are two for each of those.
struct PlainMesh {
    int width, thickness, film;
};

/// Total charge, free and bound, on rectangles in one film, in the open or over one plane:
/// potential at the middle of each segment of metal, flux across the middle of each of film, both
/// by closed forms; segments crowd to corners by the cube, along a film they are equal. One LU with
/// the film and one without. No symmetry is made use of.
class PlainField {
public:
    PlainField(const Section& section, double pitch, const PlainMesh& mesh) : section_(section) {
        if (!section.planes.empty()) floor_ = section.planes.front().y.value();
        for (const SectionConductor& c : section.conductors) {
            const Point half(0.5 * c.width.value(), 0.5 * c.thickness.value());
            const Point middle(c.x.value(), c.y.value());
            add_box(middle - half, middle + half, mesh.width, mesh.thickness, true);
        }
        metal_ = segments_.size();
        const SectionDielectric& film = section.dielectrics.front();
        const double pitches = (film.x_max - film.x_min).value() / pitch;
        add_box({film.x_min.value(), film.y_min.value()}, {film.x_max.value(), film.y_max.value()},
                static_cast<int>(std::lround(pitches * mesh.film)), 2 * mesh.film, false);
    }

    /// Farads per metre, every conductor at its own voltage.
    struct Capacitances {
        Eigen::MatrixXd film, vacuum;
        std::size_t unknowns, unknowns_vacuum;
    };

    Capacitances solve() const {
        const Eigen::MatrixXd matrix = filled();
        const double er = section_.dielectrics.front().er;
        return {er * charges(matrix), charges(matrix.topLeftCorner(size(metal_), size(metal_))),
                static_cast<std::size_t>(size(segments_.size())),
                static_cast<std::size_t>(size(metal_))};
    }

private:
    using Point = std::complex<double>;

    struct Segment {
        Point from, along;  ///< start and unit vector
        double length;
        double outer_er = 0.0, inner_er = 0.0;  ///< right of the way and left of it; metal: none
        Point at() const { return from + 0.5 * length * along; }
    };

    /// Counter-clockwise, so that outside is to the right.
    void add_box(Point low, Point high, int across, int up, bool metal) {
        const Point corners[] = {low, {high.real(), low.imag()}, high, {low.real(), high.imag()}};
        for (int side = 0; side < 4; ++side) {
            const Point from = corners[side];
            const Point way = corners[(side + 1) % 4] - from;
            const int count = side % 2 == 0 ? across : up;
            const bool crowded = metal || side % 2 == 1;
            for (int i = 0; i < count; ++i) {
                const double begin = share(i, count, crowded);
                const double end = share(i + 1, count, crowded);
                Segment segment{from + begin * way, way / std::abs(way),
                                (end - begin) * std::abs(way)};
                if (!metal) segment.outer_er = 1.0;
                if (!metal) segment.inner_er = section_.dielectrics.front().er;
                segments_.push_back(segment);
            }
        }
    }

    static double share(int step, int count, bool crowded) {
        const double t = static_cast<double>(step) / count;
        if (!crowded) return t;
        return t < 0.5 ? 4.0 * t * t * t : 1.0 - 4.0 * (1.0 - t) * (1.0 - t) * (1.0 - t);
    }

    /// Without a plane one unknown more, the potential of everything: it stands before the film's.
    Eigen::Index size(std::size_t segments) const {
        return static_cast<Eigen::Index>(segments) + (floor_ ? 0 : 1);
    }
    Eigen::Index place(std::size_t segment) const {
        return static_cast<Eigen::Index>(segment) + (segment < metal_ || floor_ ? 0 : 1);
    }

    /// The integral of -log of the distance along a segment.
    static double potential(const Segment& source, Point to) {
        const Point u = (to - source.from) * std::conj(source.along);
        const double x = u.real(), y = u.imag(), rest = x - source.length;
        return source.length - 0.5 * x * std::log(x * x + y * y) +
               0.5 * rest * std::log(rest * rest + y * y) + y * angle(source, u);
    }

    /// Its field Ex - jEy.
    static Point field(const Segment& source, Point to) {
        const Point u = (to - source.from) * std::conj(source.along);
        const double rise = 0.5 * std::log(std::norm(u) / std::norm(u - source.length));
        return Point(rise, angle(source, u)) * std::conj(source.along);
    }

    /// Under which a segment is seen.
    static double angle(const Segment& source, Point u) {
        const double y = u.imag();
        return std::atan2(-y * source.length, u.real() * (u.real() - source.length) + y * y);
    }

    Point image(Point to) const { return std::conj(to) + Point(0.0, 2.0 * *floor_); }

    double potential_row(const Segment& source, Point to) const {
        return potential(source, to) - (floor_ ? potential(source, image(to)) : 0.0);
    }

    /// er (En + pi s) outside is er (En - pi s) inside; a segment has none across itself.
    double flux_row(const Segment& source, const Segment& target) const {
        const bool own = &source == &target;
        Point sum = own ? 0.0 : field(source, target.at());
        if (floor_) sum -= std::conj(field(source, image(target.at())));
        const Point normal = target.along * Point(0.0, -1.0);
        const double across = (sum * normal).real();
        const double both = target.outer_er + target.inner_er;
        return (target.outer_er - target.inner_er) * across + (own ? both * std::numbers::pi : 0.0);
    }

    Eigen::MatrixXd filled() const {
        Eigen::MatrixXd matrix(size(segments_.size()), size(segments_.size()));
        for (std::size_t j = 0; j < segments_.size(); ++j) {
            const Segment& source = segments_[j];
            for (std::size_t i = 0; i < segments_.size(); ++i) {
                const Segment& target = segments_[i];
                matrix(place(i), place(j)) =
                    i < metal_ ? potential_row(source, target.at()) : flux_row(source, target);
            }
        }
        if (floor_) return matrix;
        const auto potential_of_all = static_cast<Eigen::Index>(metal_);
        matrix.col(potential_of_all).setZero();
        matrix.col(potential_of_all).head(potential_of_all).setOnes();
        matrix(potential_of_all, potential_of_all) = 0.0;
        for (std::size_t j = 0; j < segments_.size(); ++j) {
            matrix(potential_of_all, place(j)) = segments_[j].length;
        }
        return matrix;
    }

    std::size_t conductor_of(std::size_t segment) const {
        return segment * section_.conductors.size() / metal_;
    }

    /// All charge on each conductor for each one's volt.
    Eigen::MatrixXd charges(const Eigen::MatrixXd& matrix) const {
        const auto count = static_cast<Eigen::Index>(section_.conductors.size());
        Eigen::MatrixXd volts = Eigen::MatrixXd::Zero(matrix.rows(), count);
        for (std::size_t i = 0; i < metal_; ++i) {
            volts(place(i), static_cast<Eigen::Index>(conductor_of(i))) = 1.0;
        }
        const Eigen::MatrixXd densities = matrix.partialPivLu().solve(volts);
        Eigen::MatrixXd sums = Eigen::MatrixXd::Zero(count, count);
        for (std::size_t i = 0; i < metal_; ++i) {
            sums.row(static_cast<Eigen::Index>(conductor_of(i))) +=
                segments_[i].length * densities.row(place(i));
        }
        return 2.0 * std::numbers::pi * vacuum_permittivity * sums;
    }

    const Section& section_;
    std::optional<double> floor_;
    std::vector<Segment> segments_;
    std::size_t metal_ = 0;
};

}  // namespace pinfold::bench
