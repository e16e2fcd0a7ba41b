// The eye: pulse responses from scattering, and the worst that data and neighbours can do to them.
#pragma once

#include <Eigen/Dense>
#include <complex>
#include <vector>

#include "base/units.hpp"

namespace pinfold {

/// How a bit is sent: the rate, the time of an edge from end to end, and how finely and for how
/// long it is watched. The response repeats after `bits`; what rings longer is folded back into it,
/// which counts it as worse than it is, never as better.
struct Signalling {
    GigabitsPerSecond rate;
    double edge_bits = 0.3;  ///< of a straight edge, from 0 to 100 %
    std::size_t bits = 64;
    std::size_t samples = 32;    ///< of each bit
    double band_per_rate = 2.5;  ///< the highest frequency, as a multiple of the rate
    double taper_share = 0.6;    ///< of the band, at its top: faded out as a half cosine

    Hertz step() const;          ///< between frequencies: the rate over `bits`
    std::size_t points() const;  ///< frequencies from 0 to the top of the band
};

/// What arrives of one bit of height 1, `bits` x `samples` voltages over time.
///
/// `transfer` holds the response at k x step(), k = 0 ... points() - 1. The bit is a trapezoid, one
/// bit wide at half its height, centred at the start. Inverse Fourier series; nothing is made
/// causal by force.
Eigen::VectorXd pulse_response(const Eigen::VectorXcd& transfer, const Signalling& signalling);

/// The same of a bit of another sender, `bits` of these long with edges in proportion.
Eigen::VectorXd pulse_response(const Eigen::VectorXcd& transfer, const Signalling& signalling,
                               double bits);

/// What arrives of one edge of height 1: the extreme voltage, with its sign, that half a period of
/// constant level brings above or below where it settles.
double step_peak(const Eigen::VectorXcd& transfer, const Signalling& signalling);

/// The inside of the eye at its best moment, as a share of the swing that was sent: 1 is a perfect
/// eye, 0 or less is closed.
struct Eye {
    double opening = 0.0;     ///< what is left between the worst 1 and the worst 0
    UnitIntervals width;      ///< for how long it stays open, 0 to 2
    double cursor = 0.0;      ///< what the bit itself brings
    double other_bits = 0.0;  ///< what bits before and after it can take
    double neighbours = 0.0;  ///< what other signals can take
};

/// What another signal brings of one of its bits, and how long that is, in bits of the pair.
struct Neighbour {
    Eigen::VectorXd pulse;
    double bits = 1.0;
};

/// The eye when every other bit and every neighbour does its worst (peak distortion). Each
/// neighbour is taken at its own worst moment.
///
/// Source: Casper, Haycock and Mooney, Symposium on VLSI Circuits 2002, from memory; Oh and Yuan,
/// High-Speed Signaling: Jitter Modeling, Analysis, and Budgeting, section 9.5. A bound: coded data
/// cannot send every pattern.
Eye worst_eye(const Eigen::VectorXd& pulse, const std::vector<Neighbour>& neighbours,
              std::size_t samples);

}  // namespace pinfold
