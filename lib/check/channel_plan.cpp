#include "check/channel_plan.hpp"

#include <algorithm>

namespace pinfold {
namespace {

constexpr double light_mm_per_ps = 0.299792458;

LineEnd all_ports(std::size_t count) {
    return {std::vector<Ending>(count, Ending::port), {}, false};
}

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
    return {line, Millimetres(light_mm_per_ps * delay.value()), all_ports(1), all_ports(1)};
}

/// The pair beside each other, as far as both go.
EndedLine coupled_traces(const TracesPlan& plan) {
    return {per_metre(*plan.line->field, plan.line->ground), std::min(plan.plus, plan.minus),
            all_ports(2), all_ports(2)};
}

/// What one half is longer than the other.
EndedLine rest_of(const TracesPlan& plan, Millimetres length) {
    return {alone(*plan.line), length - std::min(plan.plus, plan.minus), all_ports(1),
            all_ports(1)};
}

void add(EndedLine line, Stretch& stretch) {
    const std::size_t ports = line.a.endings.size();
    for (std::size_t i = 0; i < ports; ++i) stretch.order.push_back(stretch.order.size());
    stretch.lines.push_back(std::move(line));
}

/// The nth board of every pair; nothing where a pair has fewer. First what runs side by side.
void add_board(const std::vector<std::vector<TracesPlan>>& landing,
               const std::vector<Drive>& drives, std::size_t board,
               std::vector<Stretch>& stretches) {
    Stretch beside, rest;
    for (std::size_t d = 0; d < landing.size(); ++d) {
        const TracesPlan plan = board < landing[d].size() ? landing[d][board] : TracesPlan{};
        if (plan.line) {
            add(coupled_traces(plan), beside);
            add(rest_of(plan, plan.plus), rest);
            add(rest_of(plan, plan.minus), rest);
            continue;
        }
        std::vector<Picoseconds> delays{plan.plus_delay};
        if (!drives[d].single) delays.push_back(plan.minus_delay);
        for (const Picoseconds delay : delays) {
            add(matched_trace(delay), beside);
            add(matched_trace(Picoseconds(0.0)), rest);
        }
    }
    stretches.push_back(std::move(beside));
    const bool uneven = std::ranges::any_of(
        rest.lines, [](const EndedLine& line) { return line.length.value() > 0.0; });
    if (uneven) stretches.push_back(std::move(rest));
}

void add_landing(const std::vector<std::vector<TracesPlan>>& landing,
                 const std::vector<Drive>& drives, std::vector<Stretch>& stretches) {
    std::size_t boards = 1;
    for (const auto& pair : landing) boards = std::max(boards, pair.size());
    for (std::size_t board = 0; board < boards; ++board)
        add_board(landing, drives, board, stretches);
}

/// The capacitance of a contact of every port that is there, to ground.
void add_contacts(Farads capacitance, const RibbonPlan& ribbon, std::vector<Stretch>& stretches) {
    if (capacitance.value() <= 0.0) return;
    constexpr double length_m = 1e-3, henries = 1e-18;  // so short that only its charge counts
    const Eigen::MatrixXd none = Eigen::MatrixXd::Zero(1, 1);
    const Eigen::MatrixXd c = Eigen::MatrixXd::Constant(1, 1, capacitance.value() / length_m);
    const PerMetre line{c,    c,   none, Eigen::MatrixXd::Constant(1, 1, henries / length_m),
                        none, none};
    Stretch stretch;
    for (const auto& port : ribbon.ports) {
        add(port ? EndedLine{line, Millimetres(1e3 * length_m), all_ports(1), all_ports(1)}
                 : matched_trace(Picoseconds(0.0)),
            stretch);
    }
    stretches.push_back(std::move(stretch));
}

/// For each port its place among those that are there in order of conductors, then one behind them
/// for each that is not.
std::vector<std::size_t> ranks(const std::vector<std::optional<std::size_t>>& ports) {
    std::vector<std::size_t> sorted, order;
    for (const auto& port : ports) {
        if (port) sorted.push_back(*port);
    }
    std::ranges::sort(sorted);
    std::size_t behind = sorted.size();
    for (const auto& port : ports) {
        const auto rank = [&] { return std::ranges::lower_bound(sorted, *port) - sorted.begin(); };
        order.push_back(port ? static_cast<std::size_t>(rank()) : behind++);
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
    Stretch stretch{{{per_metre(*plan.field, reference),
                      plan.length,
                      {endings, plan.near, has_contact},
                      {endings, plan.far, has_contact}}},
                    ranks(plan.ports)};
    for (const auto& port : plan.ports) {
        if (!port) stretch.lines.push_back(matched_trace(Picoseconds(0.0)));
    }
    return stretch;
}

}  // namespace

std::vector<std::size_t> grounds_of(const std::vector<Ending>& endings) {
    std::vector<std::size_t> grounds;
    for (std::size_t i = 0; i < endings.size(); ++i) {
        if (endings[i] == Ending::tied) grounds.push_back(i);
    }
    return grounds;
}

PerMetre alone(const TraceLine& traces) {
    const PerMetre pair = per_metre(*traces.field, traces.ground);
    const auto first = [](const Eigen::MatrixXd& matrix) {
        return Eigen::MatrixXd(matrix.topLeftCorner(1, 1));
    };
    const auto floating = [](const Eigen::MatrixXd& matrix) {
        return Eigen::MatrixXd(Eigen::MatrixXd::Constant(1, 1, 1.0 / matrix.inverse()(0, 0)));
    };
    PerMetre single{floating(pair.capacitance),   floating(pair.capacitance_vacuum),
                    first(pair.capacitance_loss), first(pair.inductance),
                    first(pair.recession),        first(pair.resistance_dc)};
    single.capacitance_loss *= single.capacitance(0, 0) / pair.capacitance(0, 0);
    return single;
}

Channel channel_of(const ChannelPlan& plan) {
    Channel channel;
    for (std::size_t place = 0; place < plan.ribbons.size(); ++place) {
        const RibbonPlan& of_ribbon = plan.ribbons[place];
        add_landing(plan.landings[place], plan.pairs, channel.stretches);
        add_contacts(of_ribbon.near_capacitance, of_ribbon, channel.stretches);
        channel.stretches.push_back(ribbon(of_ribbon));
        add_contacts(of_ribbon.far_capacitance, of_ribbon, channel.stretches);
    }
    add_landing(plan.landings.back(), plan.pairs, channel.stretches);
    channel.pairs = plan.pairs;
    return channel;
}

}  // namespace pinfold
