#include "check/line_memory.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

/// Halves that differ by less than the field is solved to are taken as alike.
PairOnRibbon pair_on(const PerMetre& line, std::size_t plus, std::size_t minus,
                     double field_error) {
    PairOnRibbon pair{pair_impedance(line, plus, minus), 0.0, 0.0};
    double apart = single_impedance(line, plus).delay - single_impedance(line, minus).delay;
    if (std::abs(apart) < field_error * pair.impedance.delay) apart = 0.0;
    pair.plus_delay = pair.impedance.delay + 0.5 * apart;
    pair.minus_delay = pair.impedance.delay - 0.5 * apart;
    return pair;
}

double work_of(const ChannelPlan& plan) {
    double work = 0.0;
    for (const RibbonPlan& ribbon : plan.ribbons) {
        work += std::pow(static_cast<double>(ribbon.endings.size()), 3);
    }
    return work;
}

Sweep whole_sweep_of(const ChannelPlan& plan) {
    const Signalling signalling{plan.rate};
    return sweep(channel_of(plan), signalling.step(), signalling.points());
}

/// The place of a conductor once those of `ground` are left out.
std::size_t place_without(const std::vector<std::size_t>& ground, std::size_t conductor) {
    const auto below = std::ranges::count_if(ground, [&](std::size_t g) { return g < conductor; });
    return conductor - static_cast<std::size_t>(below);
}

}  // namespace

const PairOnRibbon& LineMemory::pair_of(const FieldSolution& field,
                                        const std::vector<std::size_t>& ground, std::size_t plus,
                                        std::size_t minus) {
    const Grounded grounded{&field, ground};
    const auto [pair, is_new] = pairs_.try_emplace({grounded, plus, minus});
    if (!is_new) return pair->second;
    pair->second = pair_on(line_of(grounded), place_without(ground, plus),
                           place_without(ground, minus), field.error_estimate);
    return pair->second;
}

SingleImpedance LineMemory::single_of(const FieldSolution& field,
                                      const std::vector<std::size_t>& ground,
                                      std::size_t conductor) {
    return single_impedance(line_of({&field, ground}), place_without(ground, conductor));
}

const PerMetre& LineMemory::line_of(const Grounded& grounded) {
    const auto [line, is_new] = lines_.try_emplace(grounded);
    if (is_new) line->second = per_metre(*grounded.first, grounded.second);
    return line->second;
}

const ChannelResult* LineMemory::result_of(const ChannelPlan& plan) {
    const auto known = results_.find(plan);
    if (known != results_.end()) return &known->second;
    if (work_ + work_of(plan) > most_work_) return nullptr;
    work_ += work_of(plan);
    ChannelResult result =
        measure(whole_sweep_of(plan), plan.pairs, Signalling{plan.rate}, plan.own);
    return &results_.emplace(plan, std::move(result)).first->second;
}

Sweep sweep_of(const ChannelPlan& plan) {
    Sweep all = whole_sweep_of(plan);
    std::vector<Eigen::Index> ports;
    for (const std::size_t end : {std::size_t{0}, ports_of(plan.pairs)}) {
        for (std::size_t port = 0; port < 2 * plan.own; ++port) {
            ports.push_back(static_cast<Eigen::Index>(end + port));
        }
    }
    for (Eigen::MatrixXcd& point : all.points) point = point(ports, ports).eval();
    return all;
}

}  // namespace pinfold
