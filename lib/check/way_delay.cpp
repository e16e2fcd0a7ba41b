#include "check/way_delay.hpp"

#include <algorithm>

#include "check/board_traces.hpp"
#include "physics/conductor.hpp"

namespace pinfold {
namespace {

constexpr double lead_permittivity = 1.8;  ///< from memory, see the header

void add(Picoseconds time, HalfDelay& half) {
    half.delay = half.delay.value_or(Picoseconds(0.0)) + time;
}

void add_landing(const Design& design, const Landing& landing, HalfDelay& half) {
    for (const TraceLeg& leg : landing.traces) {
        if (!leg.length) continue;
        half.boards.insert(design.boards[leg.to.port.board].name);
        half.contacts.push_back(leg.to);
    }
    for (const std::size_t lead : landing.leads) {
        add(delay_along(design.leads[lead].length, lead_permittivity), half);
    }
}

std::optional<TraceLine> line_of(const Design& design, LineMemory& memory, const TraceLeg& leg) {
    const std::optional<std::size_t> net = design.contact(leg.to).net;
    return net ? trace_line(design, memory, leg.to.port.board, *net) : std::nullopt;
}

Picoseconds plain_delay(const Design& design, const TraceLeg* leg) {
    if (!leg || !leg->length) return {};
    return delay_along(*leg->length, design.boards[leg->to.port.board].permittivity);
}

TracesPlan plan_of(const Design& design, LineMemory& memory, const TraceLeg* plus,
                   const TraceLeg* minus) {
    TracesPlan plan;
    if (plus && minus && plus->to.port.board == minus->to.port.board) {
        plan.line = line_of(design, memory, *plus);
        if (plan.line != line_of(design, memory, *minus)) plan.line.reset();
    }
    if (!plan.line) {
        plan.plus_delay = plain_delay(design, plus);
        plan.minus_delay = plain_delay(design, minus);
        return plan;
    }
    plan.plus = plus->length.value_or(Millimetres{});
    plan.minus = minus->length.value_or(Millimetres{});
    return plan;
}

/// The ribbons and leads of a half, and where its traces have lengths.
HalfDelay half_delay(const Design& design, RibbonLines& ribbons, const HalfWay& way,
                     const HalfWay& other) {
    HalfDelay half;
    for (const Landing& landing : way.landings) add_landing(design, landing, half);
    for (std::size_t i = 0; i < way.ribbons.size(); ++i) {
        const RibbonLeg& leg = way.ribbons[i];
        add(ribbons.delay_of(leg, i < other.ribbons.size() ? other.ribbons[i] : leg), half);
    }
    return half;
}

Picoseconds delay_of(LineMemory& memory, const TracesPlan& plan, Millimetres length,
                     Picoseconds plain) {
    if (!plan.line) return plain;
    const Millimetres beside = std::min(plan.plus, plan.minus);
    return trace_delay(memory, *plan.line, beside, length - beside);
}

void add_traces(LineMemory& memory, const TracesPlan& plan, WayDelay& delay) {
    const Picoseconds plus = delay_of(memory, plan, plan.plus, plan.plus_delay);
    const Picoseconds minus = delay_of(memory, plan, plan.minus, plan.minus_delay);
    if (plus.value() > 0.0) add(plus, delay.plus);
    if (minus.value() > 0.0) add(minus, delay.minus);
}

}  // namespace

WayDelay delay_of(const Design& design, RibbonLines& ribbons, const PairWay& way) {
    WayDelay delay{half_delay(design, ribbons, way.plus, way.minus),
                   half_delay(design, ribbons, way.minus, way.plus)};
    const std::size_t places = std::max(way.plus.landings.size(), way.minus.landings.size());
    const auto landing = [](const HalfWay& half, std::size_t place) {
        return place < half.landings.size() ? half.landings[place] : Landing{};
    };
    for (std::size_t place = 0; place < places; ++place) {
        for (const TracesPlan& plan : traces_of(design, ribbons.memory(), landing(way.plus, place),
                                                landing(way.minus, place))) {
            add_traces(ribbons.memory(), plan, delay);
        }
    }
    return delay;
}

std::vector<TracesPlan> traces_of(const Design& design, LineMemory& memory, const Landing& plus,
                                  const Landing& minus) {
    const auto leg = [](const Landing& landing, std::size_t i) {
        return i < landing.traces.size() ? &landing.traces[i] : nullptr;
    };
    std::vector<TracesPlan> plans;
    const std::size_t boards = std::max(plus.traces.size(), minus.traces.size());
    for (std::size_t i = 0; i < boards; ++i) {
        plans.push_back(plan_of(design, memory, leg(plus, i), leg(minus, i)));
    }
    return plans;
}

}  // namespace pinfold
