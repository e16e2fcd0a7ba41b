#include "bringup/assembly.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <numeric>

namespace pinfold {
namespace {

constexpr std::uint32_t nobody = std::numeric_limits<std::uint32_t>::max();

}  // namespace

Assembly::Assembly(const Wiring& wiring, std::vector<Point> watched, std::size_t parts)
    : wiring_(wiring),
      watched_(std::move(watched)),
      parts_(parts),
      root_(wiring.points()),
      is_cut_(wiring.links().size(), 0),
      first_(wiring.points(), nobody) {
    std::iota(root_.begin(), root_.end(), Point{0});
    for (const Link& link : wiring_.links()) join(link.one, link.other);
    sound_roots_ = root_;
    for (Point& root : sound_roots_) root = root_of(root);
    sound_ = watched_pieces();
}

Point Assembly::root_of(Point point) {
    while (root_[point] != point) point = root_[point] = root_[root_[point]];
    return point;
}

void Assembly::join(Point one, Point other) { root_[root_of(one)] = root_of(other); }

Partition Assembly::watched_pieces() {
    Partition pieces(watched_.size() + parts_, sound_part);
    for (std::size_t i = 0; i < watched_.size(); ++i) {
        std::uint32_t& first = first_[root_of(watched_[i])];
        if (first == nobody) first = static_cast<std::uint32_t>(i);
        pieces[i] = first;
    }
    for (const Point point : watched_) first_[root_of(point)] = nobody;
    return pieces;
}

Partition Assembly::with(std::span<const Change* const> changes) {
    const auto cuts = [](const Change* change) { return !change->cut.empty(); };
    if (std::ranges::none_of(changes, cuts)) {
        root_ = sound_roots_;
    } else {
        std::iota(root_.begin(), root_.end(), Point{0});
        for (const Change* change : changes) {
            for (const std::uint32_t link : change->cut) is_cut_[link] = 1;
        }
        for (std::size_t i = 0; i < is_cut_.size(); ++i) {
            const Link& link = wiring_.links()[i];
            if (is_cut_[i] == 0) join(link.one, link.other);
            is_cut_[i] = 0;
        }
    }
    for (const Change* change : changes) {
        for (const auto& [one, other] : change->added) join(one, other);
    }
    Partition pieces = watched_pieces();
    for (const Change* change : changes) {
        if (change->spoilt) pieces[watched_.size() + *change->spoilt] = spoilt_part;
    }
    return pieces;
}

Partition Assembly::with(const Change& change) {
    const std::array<const Change*, 1> one{&change};
    return with(one);
}

}  // namespace pinfold
