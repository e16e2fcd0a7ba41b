// The built assembly: which points hang together once a fault has cut links or joined points.
#pragma once

#include <limits>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// What a fault does: links of the wiring that are gone, and points that are joined instead.
struct Change {
    std::vector<std::uint32_t> cut;  ///< in the wiring's links
    std::vector<std::pair<Point, Point>> added;
    std::optional<std::uint32_t> spoilt = {};  ///< a part inside a device
};

/// Which of the watched points hang together: two do if they have the same number.
///
/// The number is the place of the first watched point of the piece, so equal wirings have equal
/// partitions. Behind the points stands one entry for each device part, which is only ever
/// `sound_part` or `spoilt_part`.
using Partition = std::vector<std::uint32_t>;

constexpr std::uint32_t sound_part = std::numeric_limits<std::uint32_t>::max();
constexpr std::uint32_t spoilt_part = sound_part - 1;

/// The wiring as built, to be changed and looked at again and again.
class Assembly {
public:
    Assembly(const Wiring& wiring, std::vector<Point> watched, std::size_t parts = 0);

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
    std::size_t parts_;
    std::vector<Point> sound_roots_;  ///< by point
    std::vector<Point> root_;
    std::vector<char> is_cut_;          ///< by link
    std::vector<std::uint32_t> first_;  ///< by root: the first watched point met
    Partition sound_;
};

}  // namespace pinfold
