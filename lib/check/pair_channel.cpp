#include "check/pair_channel.hpp"

#include <algorithm>

#include "check/way_delay.hpp"

namespace pinfold {
namespace {

/// What the pairs meet before the ribbon at a place of the course. Of a single it does not matter:
/// when its edges come is not known.
std::vector<std::vector<TracesPlan>> landing(const Design& design, LineMemory& memory,
                                             const std::vector<Beside>& pairs, std::size_t place) {
    std::vector<std::vector<TracesPlan>> all;
    for (const Beside& pair : pairs) {
        all.emplace_back(1);
        const std::optional<std::size_t> at = pair.landing_at(place);
        if (!at || pair.single) continue;
        all.back() = traces_of(design, memory, pair.pair->plus.landings[*at],
                               pair.pair->minus.landings[*at]);
        if (pair.reversed) std::ranges::reverse(all.back());
    }
    return all;
}

RibbonPlan ribbon(const Design& design, RibbonLines& ribbons, const std::vector<Beside>& pairs,
                  std::size_t place) {
    const RibbonLeg& leg = pairs.front().halves().front()->ribbons[place];
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
    for (const Beside& pair : pairs) {
        for (const HalfWay* half : pair.halves()) {
            plan.ports.emplace_back();
            if (!pair.legs[place]) continue;
            plan.ports.back() = half->ribbons[*pair.legs[place]].conductor.index();
            plan.endings[*plan.ports.back()] = Ending::port;
        }
    }
    return plan;
}

bool runs_forward(const Interface& interface, const Beside& pair) {
    const std::size_t signal =
        pair.single ? pair.single->signal : interface.pairs[pair.pair->pair].plus;
    return interface.signals[signal].direction != Direction::back;
}

/// As it is driven along the course of the pairs of another promise.
Drive drive_of(const Design& design, const Beside& pair, std::size_t listener) {
    const Carry& promise = design.carries[pair.carry()];
    const Interface& interface = *design.interface_of(design.port(promise.from));
    Drive drive;
    drive.forward = runs_forward(interface, pair) != pair.reversed;
    drive.single = pair.single != nullptr;
    drive.listened = !drive.single && interface.pairs[pair.pair->pair].kind != PairKind::clock;
    if (pair.carry() == listener) return drive;
    drive.rate = promise.rate.value_or(GigabitsPerSecond{});
    const std::optional<Volts> sent = swing_of(design, pair.carry());
    const std::optional<Volts> own = swing_of(design, listener);
    if (sent && own) drive.height = *sent / *own;
    return drive;
}

}  // namespace

std::optional<Volts> swing_of(const Design& design, std::size_t carry) {
    const Carry& promise = design.carries[carry];
    const Limit* limit =
        promise.rate ? design.interface_of(design.port(promise.from))->limit_at(*promise.rate)
                     : nullptr;
    return limit ? limit->least_swing : std::nullopt;
}

ChannelPlan plan_of(const Design& design, RibbonLines& ribbons, const std::vector<PairWay>& ways,
                    const std::vector<Beside>& beside) {
    const std::size_t listener = ways.front().carry;
    std::vector<Beside> pairs;
    for (const PairWay& way : ways) pairs.push_back(along_own(way));
    pairs.insert(pairs.end(), beside.begin(), beside.end());
    ChannelPlan plan;
    plan.rate = design.carries[listener].rate.value_or(GigabitsPerSecond{});
    plan.own = ways.size();
    const std::size_t count = ways.front().plus.ribbons.size();
    for (std::size_t place = 0; place < count; ++place) {
        plan.landings.push_back(landing(design, ribbons.memory(), pairs, place));
        plan.ribbons.push_back(ribbon(design, ribbons, pairs, place));
    }
    plan.landings.push_back(landing(design, ribbons.memory(), pairs, count));
    for (const Beside& pair : pairs) plan.pairs.push_back(drive_of(design, pair, listener));
    return plan;
}

}  // namespace pinfold
