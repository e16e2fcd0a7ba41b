#include "physics/channel.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace pinfold {
namespace {

using Eigen::Index;
using Eigen::MatrixXcd;
using Eigen::VectorXcd;

/// Ports of a stretch in the order of the channel: left ones, then right ones.
std::vector<Index> ports_in_order(const Stretch& stretch, std::size_t count) {
    assert(stretch.order.size() == count);
    std::vector<Index> ports;
    for (const std::size_t end : {std::size_t{0}, count}) {
        for (const std::size_t port : stretch.order)
            ports.push_back(static_cast<Index>(end + port));
    }
    return ports;
}

/// A stretch with what is the same at every frequency worked out once.
class ReadyStretch {
public:
    ReadyStretch(const Stretch& stretch, std::size_t ports)
        : lines_(stretch.lines), order_(ports_in_order(stretch, ports)) {
        for (const EndedLine& line : lines_) metals_.emplace_back(line.per_metre);
    }

    MatrixXcd scattering(Hertz frequency) const {
        MatrixXcd all(0, 0);
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            const Immittance z = immittance_at(lines_[i].per_metre, metals_[i], frequency);
            all = beside(all, pinfold::scattering(z, lines_[i], frequency));
        }
        assert(all.rows() == static_cast<Index>(order_.size()));
        return all(order_, order_);
    }

private:
    const std::vector<EndedLine>& lines_;
    std::vector<MetalLoss> metals_;
    std::vector<Index> order_;
};

/// Reads the mixed-mode sweep of a channel by pair, end and kind of wave.
class Waves {
public:
    enum class Side { left, right };

    Waves(const Sweep& sweep, std::size_t pairs) : pairs_(pairs), step_(sweep.step) {
        std::vector<PortPair> ports;
        for (std::size_t p = 0; p < 2 * pairs; ++p) ports.emplace_back(2 * p, 2 * p + 1);
        for (const MatrixXcd& point : sweep.points) points_.push_back(mixed_mode(point, ports));
    }

    /// The differential wave at `to` for a differential wave in at `from`.
    VectorXcd transfer(std::size_t to, Side at, std::size_t from, Side in) const {
        return column(place(to, at), place(from, in));
    }
    /// The common wave at `to` for a differential wave in at `from`.
    VectorXcd conversion(std::size_t to, Side at, std::size_t from, Side in) const {
        return column(static_cast<Index>(2 * pairs_) + place(to, at), place(from, in));
    }
    std::size_t points() const { return points_.size(); }
    Hertz frequency(Index point) const { return static_cast<double>(point) * step_; }

private:
    Index place(std::size_t pair, Side side) const {
        return static_cast<Index>(pair + (side == Side::left ? 0 : pairs_));
    }
    VectorXcd column(Index to, Index from) const {
        VectorXcd values(static_cast<Index>(points_.size()));
        for (Index k = 0; k < values.size(); ++k) {
            values[k] = points_[static_cast<std::size_t>(k)](to, from);
        }
        return values;
    }

    std::size_t pairs_;
    Hertz step_;
    std::vector<MatrixXcd> points_;
};

using Side = Waves::Side;

Side driver(const Drive& pair) { return pair.forward ? Side::left : Side::right; }
Side receiver(const Drive& pair) { return pair.forward ? Side::right : Side::left; }

class Measurement {
public:
    Measurement(const Sweep& sweep, const std::vector<Drive>& pairs, const Signalling& signalling)
        : waves_(sweep, pairs.size()), pairs_(pairs), signalling_(signalling) {
        const double in_band = static_cast<double>(signalling.bits) * band_of_rate;
        band_ = std::min(static_cast<Index>(in_band), static_cast<Index>(waves_.points()) - 1);
    }

    ChannelResult result(std::size_t asked) const {
        ChannelResult result;
        for (std::size_t victim = 0; victim < asked; ++victim) {
            for (std::size_t other = 0; other < pairs_.size(); ++other) {
                if (other != victim) result.crosstalk.push_back(between(victim, other));
            }
            result.pairs.push_back(of_pair(victim));
        }
        return result;
    }

private:
    struct Peak {
        double amplitude = 0.0;
        Hertz at;
    };
    /// Above direct current, up to the top of the band.
    Peak peak_in_band(const Eigen::VectorXd& amplitude) const {
        Index at = 0;
        const double most = amplitude.segment(1, band_).maxCoeff(&at);
        return {most, waves_.frequency(at + 1)};
    }

    Crosstalk between(std::size_t victim, std::size_t other) const {
        Crosstalk crosstalk{victim, other, {}, {}, {}, {}, false};
        const Side in = driver(pairs_[other]), out = receiver(pairs_[other]);
        const VectorXcd near = waves_.transfer(victim, in, other, in);
        const VectorXcd far = waves_.transfer(victim, out, other, in);
        const Peak near_peak = peak_in_band(near.cwiseAbs());
        const Peak far_peak = peak_in_band(far.cwiseAbs());
        crosstalk.near = decibels(near_peak.amplitude);
        crosstalk.far = decibels(far_peak.amplitude);
        crosstalk.near_at = near_peak.at;
        crosstalk.far_at = far_peak.at;
        crosstalk.heard_near = receiver(pairs_[victim]) == in;
        return crosstalk;
    }

    PairResult of_pair(std::size_t pair) const {
        const Side in = driver(pairs_[pair]), out = receiver(pairs_[pair]);
        const VectorXcd through = waves_.transfer(pair, out, pair, in);
        const auto nyquist = static_cast<Index>(signalling_.bits / 2);
        PairResult result;
        result.loss = Decibels(-decibels(std::abs(through[nyquist])).value());
        result.reflection =
            decibels(peak_in_band(waves_.transfer(pair, in, pair, in).cwiseAbs()).amplitude);
        result.conversion =
            decibels(peak_in_band(waves_.conversion(pair, out, pair, in).cwiseAbs()).amplitude);
        Eigen::VectorXd power = Eigen::VectorXd::Zero(through.size()), voltage = power;
        std::vector<Neighbour> neighbours;
        for (std::size_t other = 0; other < pairs_.size(); ++other) {
            if (other == pair) continue;
            const VectorXcd heard = waves_.transfer(pair, out, other, driver(pairs_[other]));
            power += heard.cwiseAbs2();
            voltage += heard.cwiseAbs();
            if (pairs_[pair].listened) neighbours.push_back(neighbour(pairs_[other], heard));
        }
        result.crosstalk_power = decibels(std::sqrt(peak_in_band(power).amplitude));
        result.crosstalk_voltage = decibels(peak_in_band(voltage).amplitude);
        if (!pairs_[pair].listened) return result;
        const Eigen::VectorXd pulse = pulse_response(through, signalling_);
        result.eye = worst_eye(pulse, neighbours, signalling_.samples);
        result.eye_alone = worst_eye(pulse, {}, signalling_.samples).opening;
        return result;
    }

    Neighbour neighbour(const Drive& sender, const VectorXcd& heard) const {
        const double rate = sender.rate.value() > 0.0 ? sender.rate.value() : own_rate();
        const double bits = std::min(own_rate() / rate, longest_bit);
        return {sender.height * pulse_response(heard, signalling_, bits), bits};
    }

    double own_rate() const { return signalling_.rate.value(); }

    Waves waves_;
    const std::vector<Drive>& pairs_;
    const Signalling& signalling_;
    Index band_;
};

}  // namespace

Sweep sweep(const Channel& channel, Hertz step, std::size_t points) {
    const std::size_t ports = 2 * channel.pairs.size();
    std::vector<ReadyStretch> stretches;
    for (const Stretch& stretch : channel.stretches) stretches.emplace_back(stretch, ports);
    Sweep result{step, {}};
    result.points.reserve(points);
    for (std::size_t k = 0; k < points; ++k) {
        const Hertz frequency = result.frequency(k);
        MatrixXcd all = stretches.front().scattering(frequency);
        for (std::size_t s = 1; s < stretches.size(); ++s) {
            all = cascade(all, stretches[s].scattering(frequency));
        }
        result.points.push_back(std::move(all));
    }
    return result;
}

ChannelResult measure(const Sweep& sweep, const std::vector<Drive>& pairs,
                      const Signalling& signalling, std::size_t asked) {
    assert(sweep.points.size() == signalling.points() && asked <= pairs.size());
    return Measurement(sweep, pairs, signalling).result(asked);
}

}  // namespace pinfold
