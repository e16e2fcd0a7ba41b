#include "check/channel_plan.hpp"

#include <algorithm>

namespace pinfold {
namespace {

constexpr double light_mm_per_ps = 0.299792458;

/// Matched traces: 50 ohm at the speed of light, longer in proportion to their delay.
EndedLine matched_trace(Picoseconds delay) {
    const Eigen::MatrixXd none = Eigen::MatrixXd::Zero(1, 1);
    const double speed = light_mm_per_ps * 1e9;  // m/s
    const PerMetre line{Eigen::MatrixXd::Constant(1, 1, 1.0 / (reference_ohm * speed)),
                        Eigen::MatrixXd::Constant(1, 1, 1.0 / (reference_ohm * speed)),
                        none,
                        Eigen::MatrixXd::Constant(1, 1, reference_ohm / speed),
                        none,
                        none};
    const LineEnd end{{Ending::port}, {}, false};
    return {line, Millimetres(light_mm_per_ps * delay.value()), end, end};
}

Stretch traces(const std::vector<Picoseconds>& delays) {
    Stretch stretch;
    for (const Picoseconds delay : delays) {
        stretch.order.push_back(stretch.lines.size());
        stretch.lines.push_back(matched_trace(delay));
    }
    return stretch;
}

/// For each port its place among all of them in order of conductors.
std::vector<std::size_t> ranks(const std::vector<std::size_t>& ports) {
    std::vector<std::size_t> sorted = ports, order;
    std::ranges::sort(sorted);
    for (const std::size_t port : ports) {
        order.push_back(
            static_cast<std::size_t>(std::ranges::lower_bound(sorted, port) - sorted.begin()));
    }
    return order;
}

/// The first ground conductor is the reference; the others keep currents of their own. A shield is
/// the reference before any conductor.
Stretch ribbon(const RibbonPlan& plan) {
    std::vector<Ending> endings = plan.endings;
    std::vector<std::size_t> reference;
    if (!plan.field->planes) {
        const auto first = std::ranges::find(endings, Ending::tied);
        reference.push_back(static_cast<std::size_t>(first - endings.begin()));
        endings.erase(first);
    }
    const bool has_contact = !reference.empty();
    return {{{per_metre(*plan.field, reference),
              plan.length,
              {endings, plan.near, has_contact},
              {endings, plan.far, has_contact}}},
            ranks(plan.ports)};
}

}  // namespace

std::vector<std::size_t> grounds_of(const std::vector<Ending>& endings) {
    std::vector<std::size_t> grounds;
    for (std::size_t i = 0; i < endings.size(); ++i) {
        if (endings[i] == Ending::tied) grounds.push_back(i);
    }
    return grounds;
}

Channel channel_of(const ChannelPlan& plan) {
    Channel channel;
    for (std::size_t place = 0; place < plan.ribbons.size(); ++place) {
        channel.stretches.push_back(traces(plan.landings[place]));
        channel.stretches.push_back(ribbon(plan.ribbons[place]));
    }
    channel.stretches.push_back(traces(plan.landings.back()));
    channel.pairs = plan.pairs;
    return channel;
}

}  // namespace pinfold
