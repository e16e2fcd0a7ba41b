// Limitations: faults the meter cannot tell from each other, or not see, and why.
#pragma once

#include <string>
#include <vector>

#include "bringup/bench.hpp"

namespace pinfold {

struct Limitation {
    std::size_t places = 0;
    std::string example;
    std::string why;
};

/// Of faults that change nothing a meter could see, one for each cause.
std::vector<Limitation> limitations_of_unseen(const Bench& bench,
                                              const std::vector<std::size_t>& faults);
/// Of faults that look like others of their kind, one for each kind.
std::vector<Limitation> limitations_of_alike(const Bench& bench,
                                             const std::vector<std::size_t>& faults);

}  // namespace pinfold
