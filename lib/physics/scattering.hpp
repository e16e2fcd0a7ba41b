// Scattering matrices: cascades, mixed mode, reciprocity and passivity.
#pragma once

#include <Eigen/Dense>
#include <utility>
#include <vector>

#include "base/units.hpp"
#include "physics/line.hpp"

namespace pinfold {

/// Scattering at frequencies k x `step` for k = 0, 1, ..., all of one size.
struct Sweep {
    Hertz step;
    std::vector<Eigen::MatrixXcd> points;

    Hertz frequency(std::size_t point) const { return static_cast<double>(point) * step; }
};

/// Two networks in a row; each has its left ports first and as many right ports, and the right ones
/// of `left` meet the left ones of `right` in order. Same reference resistance.
Eigen::MatrixXcd cascade(const Eigen::MatrixXcd& left, const Eigen::MatrixXcd& right);

/// Two networks side by side: the left ports of both, then the right ports of both.
Eigen::MatrixXcd beside(const Eigen::MatrixXcd& one, const Eigen::MatrixXcd& other);

/// Ports of a pair, plus and minus.
using PortPair = std::pair<std::size_t, std::size_t>;

/// Differential waves of the pairs in order, then their common waves: 2p by 2p for p pairs. Ports
/// that no pair names stay matched and are left out.
///
/// Differential reference 2 x `reference_ohm`, common half of it: (a+ - a-)/sqrt2, (a+ + a-)/sqrt2.
/// Source: Bockelman and Eisenstadt, IEEE Transactions on Microwave Theory and Techniques 43(7),
/// 1995, from memory.
Eigen::MatrixXcd mixed_mode(const Eigen::MatrixXcd& scattering, const std::vector<PortPair>& pairs);

/// The greatest difference of an entry from its mirror.
double reciprocity_error(const Eigen::MatrixXcd& scattering);

/// By how much the strongest outgoing wave exceeds the incoming one: above 0 the network makes
/// power.
double passivity_excess(const Eigen::MatrixXcd& scattering);

/// 20 log10 of an amplitude; -300 dB for nothing.
Decibels decibels(double amplitude);

}  // namespace pinfold
