// Timing for the benchmarks: the fastest of some runs, and how it grows with the size.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>

namespace pinfold::bench {

/// Seconds of the fastest of some runs; the others were disturbed.
template <class Work>
double fastest(std::size_t runs, const Work& work) {
    double best = HUGE_VAL;
    for (std::size_t i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
        best = std::min(best, taken.count());
    }
    return best;
}

/// The exponent from one size to the next, 1 for linear; `-` where there is none before.
inline std::string growth(double size, double seconds, double size_before, double seconds_before) {
    if (size_before == 0.0) return "-";
    return fmt::format("{:.2f}", std::log(seconds / seconds_before) / std::log(size / size_before));
}

}  // namespace pinfold::bench
