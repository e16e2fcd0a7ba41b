// The pads of a board beside the nets they lie on: in the design, and in a netlist that was drawn.
#pragma once

#include <limits>
#include <unordered_map>
#include <vector>

#include "check/compare.hpp"

namespace pinfold {

constexpr std::size_t no_net = std::numeric_limits<std::size_t>::max();

/// One pad of the board.
struct ComparedPad {
    std::size_t port = 0;
    bool is_shield = false;
    std::string label;
    std::size_t meant = no_net;  ///< the design's net
    std::size_t drawn = no_net;  ///< the netlist's; none if the pad is on no net there
    Mark in_board, in_netlist;
};

/// How far what is drawn is from what is meant: nets cut apart and nets joined, counted as pads are
/// put in and taken out.
class Tally {
public:
    void add(std::size_t meant, std::size_t drawn);
    void remove(std::size_t meant, std::size_t drawn);
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
    std::unordered_map<std::size_t, long> of_meant_, of_drawn_;
    long cost_ = 0;
};

/// One thing that is wrong between the pads, and the pads it is about.
struct PadCause {
    enum class Kind { open, shorted, misplaced, exchanged, pairs_exchanged };
    Kind kind = Kind::open;
    std::vector<std::size_t> pads;    ///< of an exchange: one, its other, the next, its other
    std::vector<std::size_t> beside;  ///< pads the first ones should, or should not, be joined to
};

/// The fewest causes we find, group by group of nets that touch each other.
std::vector<PadCause> pad_causes(const std::vector<ComparedPad>& pads);

}  // namespace pinfold
