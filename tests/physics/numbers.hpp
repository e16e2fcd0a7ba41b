// Numbers for generated cases.
#pragma once

#include <cstddef>
#include <cstdint>

namespace pinfold {

/// Numbers that look random and are the same on every run.
class Numbers {
public:
    explicit Numbers(std::uint64_t seed) : state_(seed) {}
    double next() {
        state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<double>(state_ >> 11) / 9007199254740992.0;
    }
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(next() * static_cast<double>(count));
    }

private:
    std::uint64_t state_;
};

}  // namespace pinfold
