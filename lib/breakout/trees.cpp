#include "breakout/trees.hpp"

#include <algorithm>
#include <numeric>

namespace pinfold {
namespace {

class TreeMaker {
public:
    TreeMaker(std::size_t near, std::size_t far, std::size_t most)
        : near_(near), far_(far), most_(most) {}

    TreeShapes make() {
        walk(0, 0);
        made_.planar = made_.shapes.size();
        std::vector<std::size_t> parts(near_ + far_);
        std::iota(parts.begin(), parts.end(), std::size_t{0});
        if (near_ > 1 && far_ > 1) add_edges(0, parts);
        return std::move(made_);
    }

private:
    void keep() {
        if (made_.shapes.size() == most_) {
            made_.complete = false;
        } else {
            made_.shapes.push_back(shape_);
        }
    }

    /// Trees that do not cross themselves: from the leftmost pads to the rightmost, one step on one
    /// side at a time.
    void walk(std::size_t near, std::size_t far) {
        if (near == near_ || far == far_ || !made_.complete) return;
        shape_.emplace_back(near, far);
        if (near + 1 == near_ && far + 1 == far_) keep();
        walk(near + 1, far);
        walk(near, far + 1);
        shape_.pop_back();
    }

    bool crosses_itself() const {
        return std::ranges::any_of(shape_, [&](const auto& one) {
            return std::ranges::any_of(shape_, [&](const auto& other) {
                return one.first < other.first && one.second > other.second;
            });
        });
    }

    /// All others: each edge from `edge` on is left out or, if it joins two parts, taken.
    void add_edges(std::size_t edge, const std::vector<std::size_t>& parts) {
        const std::size_t wanted = near_ + far_ - 1 - shape_.size();
        if (wanted == 0 && crosses_itself()) keep();
        if (wanted == 0 || edge + wanted > near_ * far_ || !made_.complete) return;
        const std::size_t near = edge / far_, far = edge % far_;
        const std::size_t from = parts[near_ + far], to = parts[near];
        if (from != to) {
            std::vector<std::size_t> joined = parts;
            std::ranges::replace(joined, from, to);
            shape_.emplace_back(near, far);
            add_edges(edge + 1, joined);
            shape_.pop_back();
        }
        add_edges(edge + 1, parts);
    }

    std::size_t near_, far_, most_;
    TreeShape shape_;
    TreeShapes made_;
};

}  // namespace

TreeShapes tree_shapes(std::size_t near, std::size_t far, std::size_t most) {
    return TreeMaker(near, far, most).make();
}

}  // namespace pinfold
