// Coupling between conductors of a ribbon, as the search for an order weighs it.
#pragma once

#include <array>
#include <string>

namespace pinfold {

/// Conductors further apart than this are taken not to hear each other.
constexpr int coupling_reach = 3;

/// How much of a disturbance arrives, in thousandths of that between two neighbours with nothing
/// between them. Whoever knows better (from the field of the ribbon's section) fills in another
/// table; `source` is printed with the figures.
struct Coupling {
    /// By distance in pitches less one, and by the grounds that lie between.
    std::array<std::array<int, coupling_reach>, coupling_reach> weight{};
    std::string source;

    /// `distance` from 1. More than the reach, or more grounds than fit between, is nothing.
    int at(int distance, int grounds_between) const {
        if (distance > coupling_reach || grounds_between >= coupling_reach) return 0;
        return weight[static_cast<std::size_t>(distance - 1)]
                     [static_cast<std::size_t>(grounds_between)];
    }
};

/// Falling with the square of the distance, to a quarter behind a ground, and to nothing behind
/// two; common practice, no field was solved.
Coupling coupling_by_distance();

}  // namespace pinfold
