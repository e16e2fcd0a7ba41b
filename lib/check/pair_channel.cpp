#include "check/pair_channel.hpp"

#include <algorithm>

#include "physics/conductor.hpp"

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

Stretch traces(const Design& design, const std::vector<PairWay>& ways, std::size_t place) {
    Stretch stretch;
    for (const PairWay& way : ways) {
        for (const HalfWay* half : {&way.plus, &way.minus}) {
            stretch.order.push_back(stretch.lines.size());
            stretch.lines.push_back(matched_trace(trace_delay(design, half->landings[place])));
        }
    }
    return stretch;
}

/// The conductors of the halves, in the order of the channel's ports.
std::vector<std::size_t> port_conductors(const std::vector<PairWay>& ways, std::size_t place) {
    std::vector<std::size_t> ports;
    for (const PairWay& way : ways) {
        ports.push_back(way.plus.ribbons[place].conductor.index());
        ports.push_back(way.minus.ribbons[place].conductor.index());
    }
    return ports;
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

Stretch ribbon(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways,
               std::size_t place) {
    const RibbonLeg& leg = ways.front().plus.ribbons[place];
    std::vector<Ending> endings = ribbons.endings_of(leg.ribbon);
    const std::vector<std::size_t> ports = port_conductors(ways, place);
    for (const std::size_t port : ports) endings[port] = Ending::port;
    const auto reference = std::ranges::find(endings, Ending::tied);
    const auto at = static_cast<std::size_t>(reference - endings.begin());
    endings.erase(reference);
    const auto end = [&](End which) {
        return LineEnd{endings, ribbons.contact_of(leg.ribbon, which), true};
    };
    const End near = leg.from_a ? End::a : End::b, far = leg.from_a ? End::b : End::a;
    return {{{per_metre(ribbons.solved(leg.ribbon).field, {at}), design.ribbons[leg.ribbon].length,
              end(near), end(far)}},
            ranks(ports)};
}

Drive drive_of(const Interface& interface, std::size_t pair) {
    const Pair& p = interface.pairs[pair];
    return {interface.signals[p.plus].direction != Direction::back, p.kind != PairKind::clock};
}

}  // namespace

Course course_of(const PairWay& way) {
    if (way.plus.over_leads() || way.minus.over_leads()) return {};
    if (way.plus.ribbons.size() != way.minus.ribbons.size()) return {};
    Course course;
    for (std::size_t i = 0; i < way.plus.ribbons.size(); ++i) {
        const RibbonLeg& one = way.plus.ribbons[i];
        const RibbonLeg& other = way.minus.ribbons[i];
        if (one.ribbon != other.ribbon || one.from_a != other.from_a) return {};
        course.emplace_back(one.ribbon, one.from_a);
    }
    return course;
}

Picoseconds trace_delay(const Design& design, const Landing& landing) {
    Picoseconds delay(0.0);
    for (const TraceLeg& leg : landing.traces) {
        const double permittivity = design.boards[leg.to.port.board].permittivity;
        if (leg.length) delay = delay + delay_along(*leg.length, permittivity);
    }
    return delay;
}

Channel channel_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways) {
    const Interface& interface =
        *design.interface_of(design.port(design.carries[ways.front().carry].from));
    Channel channel;
    const std::size_t count = ways.front().plus.ribbons.size();
    for (std::size_t place = 0; place < count; ++place) {
        channel.stretches.push_back(traces(design, ways, place));
        channel.stretches.push_back(ribbon(design, ribbons, ways, place));
    }
    channel.stretches.push_back(traces(design, ways, count));
    for (const PairWay& way : ways) channel.pairs.push_back(drive_of(interface, way.pair));
    return channel;
}

}  // namespace pinfold
