// Channels: boards, contacts and ribbons in a row, and what they do to every pair that runs there.
#pragma once

#include <vector>

#include "physics/eye.hpp"
#include "physics/scattering.hpp"

namespace pinfold {

/// One stretch of a channel: lines that lie beside each other without coupling.
///
/// All ports of `lines`, in order, are its ports; `order` names for each port of the channel the
/// one of this stretch that bears it.
struct Stretch {
    std::vector<EndedLine> lines;
    std::vector<std::size_t> order;
};

/// How a pair is driven, or a single conductor against ground, which is only heard.
struct Drive {
    bool forward = true;     ///< from the left end to the right one
    bool listened = true;    ///< an eye is wanted of it; a clock has none
    GigabitsPerSecond rate;  ///< of its own; nothing: as the pair that hears it
    double height = 1.0;     ///< what it sends, against what the pairs asked for do
    bool single = false;     ///< one conductor: it has one port at each end

    friend auto operator<=>(const Drive&, const Drive&) = default;
};

/// How many ports the pairs (two each) and singles (one) have at one end.
std::size_t ports_of(const std::vector<Drive>& drives);

/// Ports of the channel: plus and minus of pair 0, of pair 1, ... at the left, then at the right; a
/// single among them has but one.
struct Channel {
    std::vector<Stretch> stretches;
    std::vector<Drive> pairs;
};

/// Scattering of the ports of a channel, single-ended.
Sweep sweep(const Channel& channel, Hertz step, std::size_t points);

/// What one pair brings onto another, both taken differentially: volts for a volt sent, the same of
/// a single.
struct Crosstalk {
    std::size_t victim = 0, aggressor = 0;
    Decibels near, far;       ///< the worst in band, at either end of the victim
    Hertz near_at, far_at;    ///< where
    bool heard_near = false;  ///< the victim's receiver is at the aggressor's driver
    const Decibels& heard() const { return heard_near ? near : far; }
};

/// What a channel does to one pair.
struct PairResult {
    Decibels loss;               ///< at half the rate, above nothing
    Decibels reflection;         ///< the worst in band, at the driver
    Decibels conversion;         ///< the worst in band, differential in, common out at the far end
    Decibels crosstalk_power;    ///< all aggressors as heard, powers summed, the worst in band
    Decibels crosstalk_voltage;  ///< the same, voltages summed
    Eye eye;                     ///< with all aggressors; of a pair that is listened to
    double eye_alone = 0.0;      ///< the opening without any aggressor
};

struct ChannelResult {
    std::vector<PairResult> pairs;
    std::vector<Crosstalk> crosstalk;  ///< from every other pair, by victim
};

/// NRZ data have 89 % of their power below three quarters of the rate: the integral of sinc^2.
/// "In band" means there.
constexpr double band_of_rate = 0.75;

/// A sender whose bits are longer than so many of the pair that hears it is taken to send those:
/// more of its edges at once than there are, never fewer.
constexpr double longest_bit = 16.0;

/// Of the first `asked` drives, which are pairs, sent as `signalling` says, with all of them
/// sending. `sweep` holds signalling.points() points, signalling.step() apart.
ChannelResult measure(const Sweep& sweep, const std::vector<Drive>& pairs,
                      const Signalling& signalling, std::size_t asked);

}  // namespace pinfold
