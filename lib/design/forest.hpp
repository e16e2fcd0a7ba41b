// Forests: which points of a wiring hang together, and the way from one to another.
#pragma once

#include <span>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// The neighbours of every point, in one array.
class Neighbours {
public:
    Neighbours(std::size_t points, const std::vector<Link>& links);

    std::span<const Point> of(Point point) const {
        return {all_.data() + first_[point], first_[point + 1] - first_[point]};
    }

private:
    std::vector<std::uint32_t> first_;  ///< by point, into `all_`
    std::vector<Point> all_;
};

/// A tree over each connected piece: every point knows its parent and its depth.
class Forest {
public:
    Forest(std::size_t points, const Neighbours& neighbours);

    const std::vector<std::uint32_t>& piece_of() const { return piece_; }  ///< by point
    std::uint32_t pieces() const { return pieces_; }

    /// The points from one to another of the same piece along its tree, both included.
    std::vector<Point> path(Point one, Point other) const;

private:
    void grow(Point root, const Neighbours& neighbours, std::vector<Point>& queue);
    std::size_t length(Point one, Point other) const;

    std::vector<std::uint32_t> piece_;
    std::vector<Point> parent_;
    std::vector<std::uint32_t> depth_;
    std::uint32_t pieces_ = 0;
};

}  // namespace pinfold
