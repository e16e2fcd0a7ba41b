// Lines whose matrices are written by hand, for tests.
#pragma once

#include <numbers>

#include "physics/channel.hpp"

namespace pinfold {

/// A line from its inductance (nH/m) and capacitance (pF/m), without loss.
inline PerMetre by_hand(const Eigen::MatrixXd& nanohenries, const Eigen::MatrixXd& picofarads) {
    const auto n = nanohenries.rows();
    const Eigen::MatrixXd none = Eigen::MatrixXd::Zero(n, n);
    const Eigen::MatrixXd inductance = 1e-9 * nanohenries;
    const Eigen::MatrixXd vacuum = 1.25663706212e-6 * 8.8541878128e-12 * inductance.inverse();
    return {1e-12 * picofarads, vacuum, none, inductance, none, none};
}

inline Eigen::MatrixXd two_by_two(double a, double b, double c, double d) {
    Eigen::MatrixXd matrix(2, 2);
    matrix << a, b, c, d;
    return matrix;
}

inline LineEnd all_ports(std::size_t count, ContactImpedance contact = {}) {
    return {std::vector<Ending>(count, Ending::port), contact, false};
}

inline EndedLine bare(const PerMetre& line, double length_mm) {
    const auto count = static_cast<std::size_t>(line.capacitance.rows());
    return {line, Millimetres(length_mm), all_ports(count), all_ports(count)};
}

/// A pair without coupling between its halves: each of half the differential impedance.
inline EndedLine matched_pair(double ohm_diff, double delay_ns, ContactImpedance contact = {}) {
    const double speed = 2e8, z = 0.5 * ohm_diff;
    PerMetre line = by_hand(1e9 * z / speed * Eigen::MatrixXd::Identity(2, 2),
                            1e12 / (z * speed) * Eigen::MatrixXd::Identity(2, 2));
    return {std::move(line), Millimetres(delay_ns * 1e-9 * speed * 1e3), all_ports(2, contact),
            all_ports(2, contact)};
}

}  // namespace pinfold
