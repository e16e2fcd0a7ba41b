// Timing for the benchmarks: the fastest of some runs, and how it grows with the size.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <string>

namespace pinfold::bench {

/// Seconds of processor time of the fastest of some runs; the others were disturbed.
template <class Work>
double fastest(std::size_t runs, const Work& work) {
    double best = HUGE_VAL;
    for (std::size_t i = 0; i < runs; ++i) {
        const std::clock_t start = std::clock();
        work();
        best = std::min(best, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return best;
}

/// The exponent from one size to the next, 1 for linear; `-` where there is none before.
inline std::string growth(double size, double seconds, double size_before, double seconds_before) {
    if (size_before == 0.0 || seconds_before == 0.0) return "-";
    return fmt::format("{:.2f}", std::log(seconds / seconds_before) / std::log(size / size_before));
}

}  // namespace pinfold::bench
