#include "check/pair_channel.hpp"

#include "check/way_delay.hpp"

namespace pinfold {
namespace {

std::vector<std::vector<TracesPlan>> landing(const Design& design, LineMemory& memory,
                                             const std::vector<PairWay>& ways, std::size_t place) {
    std::vector<std::vector<TracesPlan>> traces;
    for (const PairWay& way : ways) {
        traces.push_back(
            traces_of(design, memory, way.plus.landings[place], way.minus.landings[place]));
    }
    return traces;
}

RibbonPlan ribbon(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways,
                  std::size_t place) {
    const RibbonLeg& leg = ways.front().plus.ribbons[place];
    const RibbonUse& use = ribbons.use_of(leg.ribbon);
    const End near = leg.from_a ? End::a : End::b, far = leg.from_a ? End::b : End::a;
    RibbonPlan plan;
    plan.field = use.field;
    plan.length = design.ribbons[leg.ribbon].length;
    plan.endings = use.endings;
    plan.near = ribbons.contact_of(leg.ribbon, near);
    plan.far = ribbons.contact_of(leg.ribbon, far);
    plan.near_capacitance = ribbons.contact_capacitance(leg.ribbon, near);
    plan.far_capacitance = ribbons.contact_capacitance(leg.ribbon, far);
    for (const PairWay& way : ways) {
        for (const HalfWay* half : {&way.plus, &way.minus}) {
            plan.ports.push_back(half->ribbons[place].conductor.index());
            plan.endings[plan.ports.back()] = Ending::port;
        }
    }
    return plan;
}

Drive drive_of(const Interface& interface, std::size_t pair) {
    const Pair& p = interface.pairs[pair];
    return {interface.signals[p.plus].direction != Direction::back, p.kind != PairKind::clock};
}

}  // namespace

RibbonCourse course_of(RibbonLines& ribbons, const PairWay& way) {
    if (way.plus.over_leads() || way.minus.over_leads()) return {};
    if (way.plus.ribbons.size() != way.minus.ribbons.size()) return {};
    RibbonCourse course;
    for (std::size_t i = 0; i < way.plus.ribbons.size(); ++i) {
        const RibbonLeg& one = way.plus.ribbons[i];
        const RibbonLeg& other = way.minus.ribbons[i];
        if (one.ribbon != other.ribbon || one.from_a != other.from_a) return {};
        if (!ribbons.can_solve(one) || !ribbons.can_solve(other)) return {};
        course.emplace_back(one.ribbon, one.from_a);
    }
    return course;
}

ChannelPlan plan_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways) {
    const Carry& promise = design.carries[ways.front().carry];
    const Interface& interface = *design.interface_of(design.port(promise.from));
    ChannelPlan plan;
    plan.rate = promise.rate.value_or(GigabitsPerSecond{});
    const std::size_t count = ways.front().plus.ribbons.size();
    for (std::size_t place = 0; place < count; ++place) {
        plan.landings.push_back(landing(design, ribbons.memory(), ways, place));
        plan.ribbons.push_back(ribbon(design, ribbons, ways, place));
    }
    plan.landings.push_back(landing(design, ribbons.memory(), ways, count));
    for (const PairWay& way : ways) plan.pairs.push_back(drive_of(interface, way.pair));
    return plan;
}

}  // namespace pinfold
