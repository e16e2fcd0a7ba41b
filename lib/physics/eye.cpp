#include "physics/eye.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <unsupported/Eigen/FFT>

namespace pinfold {
namespace {

using Eigen::Index;
using Eigen::VectorXcd;
using Eigen::VectorXd;

double sinc(double x) {
    const double angle = std::numbers::pi * x;
    return std::abs(angle) < 1e-9 ? 1.0 : std::sin(angle) / angle;
}

/// 1 below the taper, falling to 0 at the top of the band as half a cosine.
double window(double share_of_band, double taper_share) {
    const double into = (share_of_band - (1.0 - taper_share)) / taper_share;
    if (into <= 0.0) return 1.0;
    return 0.5 * (1.0 + std::cos(std::numbers::pi * std::min(into, 1.0)));
}

/// The response to a trapezoid `width_bits` wide, with edges of `edge_bits`, centred at time 0,
/// repeated every `bits`.
VectorXd response(const VectorXcd& transfer, const Signalling& signalling, double width_bits,
                  double edge_bits) {
    const auto points = static_cast<Index>(signalling.points());
    const auto samples = static_cast<Index>(signalling.bits * signalling.samples);
    assert(transfer.size() == points && samples >= 2 * points);
    const auto bits = static_cast<double>(signalling.bits);
    VectorXcd spectrum = VectorXcd::Zero(samples);
    for (Index k = 0; k < points; ++k) {
        const double cycles_per_bit = static_cast<double>(k) / bits;
        const double shape = width_bits / bits * sinc(cycles_per_bit * width_bits) *
                             sinc(cycles_per_bit * edge_bits) *
                             window(static_cast<double>(k) / static_cast<double>(points - 1),
                                    signalling.taper_share);
        spectrum[k] = (k == 0 ? 1.0 : 2.0) * shape * transfer[k];
    }
    VectorXcd time(samples);
    Eigen::FFT<double> fourier;
    fourier.SetFlag(Eigen::FFT<double>::Unscaled);
    fourier.inv(time, spectrum);
    return time.real();
}

/// Sum of what the pulse brings at one moment of every bit.
double sum_at(const VectorXd& pulse, Index moment, Index samples) {
    double sum = 0.0;
    for (Index i = moment % samples; i < pulse.size(); i += samples) sum += std::abs(pulse[i]);
    return sum;
}

/// Between two samples; what is before the first is at the end.
double value_at(const VectorXd& pulse, double moment) {
    const double low = std::floor(moment);
    const Index size = pulse.size();
    const Index at = (static_cast<Index>(low) % size + size) % size;
    return pulse[at] + (moment - low) * (pulse[(at + 1) % size] - pulse[at]);
}

/// The worst sum of what a neighbour's bits bring, as far apart as it sends them.
double worst_sum(const Neighbour& neighbour, Index samples) {
    const double apart = neighbour.bits * static_cast<double>(samples);
    const auto size = static_cast<double>(neighbour.pulse.size());
    const double first = -std::floor(0.25 * size);  // what comes before its middle
    double worst = 0.0;
    for (double moment = first; moment < first + apart; moment += 1.0) {
        double sum = 0.0;
        for (int bit = 0; moment + bit * apart < first + size; ++bit) {
            sum += std::abs(value_at(neighbour.pulse, moment + bit * apart));
        }
        worst = std::max(worst, sum);
    }
    return worst;
}

}  // namespace

Hertz Signalling::step() const { return Hertz(rate.value() * 1e9 / static_cast<double>(bits)); }

std::size_t Signalling::points() const {
    return static_cast<std::size_t>(std::ceil(static_cast<double>(bits) * band_per_rate)) + 1;
}

VectorXd pulse_response(const VectorXcd& transfer, const Signalling& signalling) {
    return pulse_response(transfer, signalling, 1.0);
}

VectorXd pulse_response(const VectorXcd& transfer, const Signalling& signalling, double bits) {
    return response(transfer, signalling, bits, bits * signalling.edge_bits);
}

double step_peak(const VectorXcd& transfer, const Signalling& signalling) {
    const VectorXd wave = response(transfer, signalling, 0.5 * static_cast<double>(signalling.bits),
                                   signalling.edge_bits);
    const double settled = transfer[0].real();
    const double high = wave.maxCoeff() - std::max(settled, 0.0);
    const double low = wave.minCoeff() - std::min(settled, 0.0);
    return high >= -low ? high : low;
}

Eye worst_eye(const VectorXd& pulse, const std::vector<Neighbour>& neighbours,
              std::size_t samples_of_bit) {
    const auto samples = static_cast<Index>(samples_of_bit);
    const Index size = pulse.size();
    double taken = 0.0;
    for (const Neighbour& neighbour : neighbours) taken += worst_sum(neighbour, samples);
    VectorXd sums(samples);
    for (Index moment = 0; moment < samples; ++moment)
        sums[moment] = sum_at(pulse, moment, samples);
    const auto others_at = [&](Index at) { return sums[at % samples] - std::abs(pulse[at]); };
    const auto opening_at = [&](Index moment) {
        const Index at = (moment % size + size) % size;
        return pulse[at] - others_at(at) - taken;
    };
    Index best = 0;
    for (Index at = 1; at < size; ++at) {
        if (opening_at(at) > opening_at(best)) best = at;
    }
    Index first = best, last = best;
    if (opening_at(best) > 0.0) {
        while (best - first < samples && opening_at(first - 1) > 0.0) --first;
        while (last - best < samples && opening_at(last + 1) > 0.0) ++last;
    }
    return {opening_at(best),
            UnitIntervals(static_cast<double>(last - first) / static_cast<double>(samples)),
            pulse[best], others_at(best), taken};
}

}  // namespace pinfold
