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

/// Reads the sweep of a channel by pair, end and kind of wave.
class Waves {
public:
    enum class LineSide { left, right };

    Waves(const Sweep& sweep, const std::vector<Drive>& drives)
        : sweep_(sweep), drives_(drives), ports_(static_cast<Index>(ports_of(drives))) {
        Index next = 0;
        for (const Drive& drive : drives) {
            first_.push_back(next);
            next += drive.single ? 1 : 2;
        }
    }

    /// Volts between the halves of the pair `to` for a volt sent by `from`.
    VectorXcd transfer(std::size_t to, LineSide at, std::size_t from, LineSide in) const {
        return each_point([&](const MatrixXcd& s) {
            const Index plus = place(to, at);
            return sent(s, plus, from, in) - sent(s, plus + 1, from, in);
        });
    }
    /// The common wave of the pair `to` for a differential wave in at `from`.
    VectorXcd conversion(std::size_t to, LineSide at, std::size_t from, LineSide in) const {
        return each_point([&](const MatrixXcd& s) {
            const Index plus = place(to, at);
            return sent(s, plus, from, in) + sent(s, plus + 1, from, in);
        });
    }
    std::size_t points() const { return sweep_.points.size(); }
    Hertz frequency(Index point) const { return sweep_.frequency(static_cast<std::size_t>(point)); }

private:
    Index place(std::size_t drive, LineSide side) const {
        return first_[drive] + (side == LineSide::left ? 0 : ports_);
    }
    /// At a port, for a volt that a pair sends between its halves, or a single against ground.
    std::complex<double> sent(const MatrixXcd& s, Index port, std::size_t from, LineSide in) const {
        const Index plus = place(from, in);
        return drives_[from].single ? s(port, plus) : 0.5 * (s(port, plus) - s(port, plus + 1));
    }
    template <class Value>
    VectorXcd each_point(const Value& value) const {
        VectorXcd values(static_cast<Index>(points()));
        for (Index k = 0; k < values.size(); ++k) {
            values[k] = value(sweep_.points[static_cast<std::size_t>(k)]);
        }
        return values;
    }

    const Sweep& sweep_;
    const std::vector<Drive>& drives_;
    Index ports_;               ///< at one end
    std::vector<Index> first_;  ///< port of each drive at the left
};

using LineSide = Waves::LineSide;

LineSide driver(const Drive& pair) { return pair.forward ? LineSide::left : LineSide::right; }
LineSide receiver(const Drive& pair) { return pair.forward ? LineSide::right : LineSide::left; }

class Measurement {
public:
    Measurement(const Sweep& sweep, const std::vector<Drive>& pairs, const Signalling& signalling)
        : waves_(sweep, pairs), pairs_(pairs), signalling_(signalling) {
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
        const LineSide in = driver(pairs_[other]), out = receiver(pairs_[other]);
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
        const LineSide in = driver(pairs_[pair]), out = receiver(pairs_[pair]);
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

std::size_t ports_of(const std::vector<Drive>& drives) {
    const auto singles = std::ranges::count(drives, true, &Drive::single);
    return 2 * drives.size() - static_cast<std::size_t>(singles);
}

Sweep sweep(const Channel& channel, Hertz step, std::size_t points) {
    const std::size_t ports = ports_of(channel.pairs);
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
