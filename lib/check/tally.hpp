// Tally: how far what is drawn is from what is meant, kept up as pads are put in and taken out.
#pragma once

#include <unordered_map>
#include <vector>

#include "design/netlist.hpp"

namespace pinfold {

/// Nets cut apart and nets joined: for each net of either side, the nets of the other side that it
/// touches past the first.
class Tally {
public:
    Tally(std::size_t meant_nets, std::size_t drawn_nets)
        : of_meant_(meant_nets), of_drawn_(drawn_nets) {}

    /// A pad of the first net that lies on the second; on none, it counts for nothing.
    void add(std::size_t meant, std::size_t drawn);
    void remove(std::size_t meant, std::size_t drawn);
    /// Grows with every pad put in, and never falls.
    long cost() const { return cost_; }

private:
    void count(std::size_t meant, std::size_t drawn, long step);
    struct Both {
        std::size_t meant, drawn;
        bool operator==(const Both&) const = default;
    };
    struct Spread {
        std::size_t operator()(const Both& both) const {
            return both.meant * 0x9E3779B97F4A7C15U ^ both.drawn;
        }
    };
    std::unordered_map<Both, long, Spread> pads_;
    std::vector<long> of_meant_, of_drawn_;  ///< nets of the other side that each touches
    long cost_ = 0;
};

}  // namespace pinfold
