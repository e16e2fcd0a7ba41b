// Groups: things numbered from 0 that are joined two at a time.
#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace pinfold {

/// Things joined in groups; a group is known by the first of its things.
class Groups {
public:
    explicit Groups(std::size_t count) : over_(count) {
        std::iota(over_.begin(), over_.end(), std::size_t{0});
    }
    std::size_t first_of(std::size_t one) {
        while (over_[one] != one) one = over_[one] = over_[over_[one]];
        return one;
    }
    void join(std::size_t one, std::size_t other) {
        one = first_of(one);
        other = first_of(other);
        over_[std::max(one, other)] = std::min(one, other);
    }
    bool joined(std::size_t one, std::size_t other) { return first_of(one) == first_of(other); }

private:
    std::vector<std::size_t> over_;
};

}  // namespace pinfold
