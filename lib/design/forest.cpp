#include "design/forest.hpp"

#include <limits>

namespace pinfold {
namespace {

constexpr Point nowhere = std::numeric_limits<Point>::max();

}  // namespace

Neighbours::Neighbours(std::size_t points, const std::vector<Link>& links)
    : first_(points + 1, 0), all_(2 * links.size()) {
    // The sums are where each point's neighbours end; filling from behind moves them to the start.
    for (const Link& link : links) {
        ++first_[link.one];
        ++first_[link.other];
    }
    std::uint32_t end = 0;
    for (std::uint32_t& first : first_) first = end += first;
    for (auto link = links.rbegin(); link != links.rend(); ++link) {
        all_[--first_[link->other]] = link->one;
        all_[--first_[link->one]] = link->other;
    }
}

Forest::Forest(std::size_t points, const Neighbours& neighbours)
    : piece_(points, nowhere), parent_(points, nowhere), depth_(points, 0) {
    std::vector<Point> queue;
    for (Point root = 0; root < points; ++root) {
        if (piece_[root] != nowhere) continue;
        grow(root, neighbours, queue);
        ++pieces_;
    }
}

void Forest::grow(Point root, const Neighbours& neighbours, std::vector<Point>& queue) {
    queue.assign(1, root);
    piece_[root] = pieces_;
    for (std::size_t i = 0; i < queue.size(); ++i) {
        for (const Point next : neighbours.of(queue[i])) {
            if (piece_[next] != nowhere) continue;
            piece_[next] = pieces_;
            parent_[next] = queue[i];
            depth_[next] = depth_[queue[i]] + 1;
            queue.push_back(next);
        }
    }
}

std::size_t Forest::length(Point one, Point other) const {
    std::size_t points = 1;
    for (; one != other; ++points) {
        Point& deeper = depth_[one] >= depth_[other] ? one : other;
        deeper = parent_[deeper];
    }
    return points;
}

std::vector<Point> Forest::path(Point one, Point other) const {
    std::vector<Point> points(length(one, other));
    auto head = points.begin();
    auto tail = points.end();
    while (one != other) {
        if (depth_[one] >= depth_[other]) {
            *head++ = one;
            one = parent_[one];
        } else {
            *--tail = other;
            other = parent_[other];
        }
    }
    *head = one;
    return points;
}

}  // namespace pinfold
