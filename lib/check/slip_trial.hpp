// Slip trials: what would be left wrong if some pads had been given other places.
#pragma once

#include "check/pad_table.hpp"

namespace pinfold {

/// Pads, each with the pad whose place it was given; `no_net` where it fell off the end.
using PadShifts = std::vector<std::pair<std::size_t, std::size_t>>;

/// The nets the shifted pads would lie on without the shift.
std::vector<std::size_t> nets_without(const PadShifts& shifts,
                                      const std::vector<ComparedPad>& pads);

/// All pads, counted net by net.
Tally tally_of(const std::vector<ComparedPad>& pads);

/// Keeps some pads out of a tally for as long as it lives, and tries them in other places.
class SlipTrial {
public:
    SlipTrial(const std::vector<ComparedPad>& pads, std::vector<std::size_t> out, Tally& tally);
    ~SlipTrial();
    SlipTrial(const SlipTrial&) = delete;
    SlipTrial& operator=(const SlipTrial&) = delete;

    /// The tally's cost with the shifts of just these pads undone; given up at `least`.
    long cost_without(const PadShifts& shifts, long least);

private:
    const std::vector<ComparedPad>& pads_;
    const std::vector<std::size_t> out_;
    Tally& tally_;
};

}  // namespace pinfold
