// The built assembly: which points hang together once a fault has cut links or joined points.
#pragma once

#include <span>
#include <utility>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// What a fault does: links of the wiring that are gone, and points that are joined instead.
struct Change {
    std::vector<std::uint32_t> cut;  ///< in the wiring's links
    std::vector<std::pair<Point, Point>> added;
};

/// Which of the watched points hang together: two do if they have the same number.
///
/// The number is the place of the first watched point of the piece, so equal wirings have equal
/// partitions.
using Partition = std::vector<std::uint32_t>;

/// The wiring as built, to be changed and looked at again and again.
class Assembly {
public:
    Assembly(const Wiring& wiring, std::vector<Point> watched);

    const std::vector<Point>& watched() const { return watched_; }
    /// The assembly without a fault.
    const Partition& sound() const { return sound_; }
    /// The assembly with all of these changes at once.
    Partition with(std::span<const Change* const> changes);
    Partition with(const Change& change);

private:
    Point root_of(Point point);
    void join(Point one, Point other);
    Partition watched_pieces();

    const Wiring& wiring_;
    std::vector<Point> watched_;
    std::vector<Point> sound_roots_;  ///< by point
    std::vector<Point> root_;
    std::vector<char> is_cut_;          ///< by link
    std::vector<std::uint32_t> first_;  ///< by root: the first watched point met
    Partition sound_;
};

}  // namespace pinfold
