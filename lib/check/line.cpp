#include "check/line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "check/pair_channel.hpp"

namespace pinfold {
namespace {

void lower(Hertz& least, double hertz) {
    if (hertz > 0.0 && (least.value() == 0.0 || hertz < least.value())) least = Hertz(hertz);
}

/// What both halves take over the traces of their way, one after the other.
Picoseconds trace_delay(const Design& design, const HalfWay& way) {
    Picoseconds delay(0.0);
    for (const Landing& landing : way.landings) delay = delay + trace_delay(design, landing);
    return delay;
}

class LineMeasure {
public:
    LineMeasure(const Design& design, const Wiring& wiring)
        : design_(design), wiring_(wiring), ribbons_(design, wiring) {}

    std::vector<LineGroup> groups() {
        std::map<std::pair<std::size_t, Course>, std::vector<PairWay>> by_course;
        for (PairWay& way : pair_ways(design_, wiring_)) {
            const Course course = course_of(way);
            if (can_solve(course)) by_course[{way.carry, course}].push_back(std::move(way));
        }
        std::vector<LineGroup> groups;
        for (const auto& [key, ways] : by_course) groups.push_back(group_of(key.first, ways));
        return groups;
    }

private:
    bool can_solve(const Course& course) {
        return !course.empty() && std::ranges::all_of(course, [&](const auto& crossing) {
            return ribbons_.can_solve(crossing.first);
        });
    }

    LineGroup group_of(std::size_t carry, const std::vector<PairWay>& ways) {
        const Carry& promise = design_.carries[carry];
        const Interface& interface = *design_.interface_of(design_.port(promise.from));
        const Limit* limit = promise.rate ? interface.limit_at(*promise.rate) : nullptr;
        LineGroup group;
        group.carry = carry;
        for (const PairWay& way : ways) group.pairs.push_back(pair_line(way, interface, limit));
        for (std::size_t place = 0; place < ways.front().plus.ribbons.size(); ++place) {
            describe_ribbon(ways, place, group);
        }
        name_ports(ways, interface, promise, group);
        if (promise.rate) run(channel_of(design_, ribbons_, ways), *promise.rate, group);
        return group;
    }

    PairLine pair_line(const PairWay& way, const Interface& interface, const Limit* limit) const {
        PairLine line;
        line.carry = way.carry;
        line.name = interface.pairs[way.pair].name;
        line.listened = interface.pairs[way.pair].kind != PairKind::clock;
        const Picoseconds plus = trace_delay(design_, way.plus);
        const Picoseconds minus = trace_delay(design_, way.minus);
        line.skew = plus - minus;
        line.delay = 0.5 * (plus + minus);
        if (!limit || !limit->impedance) return line;
        line.source = limit->source;
        const double share = limit->tolerance ? 0.01 * limit->tolerance->value() : 0.0;
        if (share == 0.0) return line;
        line.least_impedance = (1.0 - share) * *limit->impedance;
        line.most_impedance = (1.0 + share) * *limit->impedance;
        return line;
    }

    /// Impedance and delay of each pair on one ribbon, all that is tied taken as one ground.
    void describe_ribbon(const std::vector<PairWay>& ways, std::size_t place, LineGroup& group) {
        const std::size_t r = ways.front().plus.ribbons[place].ribbon;
        const Ribbon& ribbon = design_.ribbons[r];
        const std::vector<Ending> endings = ribbons_.endings_of(r);
        std::vector<std::size_t> ground, kept;
        for (std::size_t i = 0; i < endings.size(); ++i) {
            (endings[i] == Ending::tied ? ground : kept).push_back(i);
        }
        const SolvedRibbon& known = ribbons_.solved(r);
        const PerMetre line = per_metre(known.field, ground);
        const auto at = [&](const HalfWay& half) {
            const std::size_t conductor = half.ribbons[place].conductor.index();
            return static_cast<std::size_t>(std::ranges::lower_bound(kept, conductor) -
                                            kept.begin());
        };
        double slowest = 0.0;
        for (std::size_t p = 0; p < ways.size(); ++p) {
            const PairImpedance z = pair_impedance(line, at(ways[p].plus), at(ways[p].minus));
            PairLine& pair = group.pairs[p];
            pair.delay = pair.delay + Picoseconds(z.delay * 1e9 * ribbon.length.value());
            slowest = std::max(slowest, z.delay);
            keep_worse(z, ribbon.name, pair);
        }
        const auto fast = std::ranges::count_if(ribbons_.row_of(r), &Occupant::fast);
        if (static_cast<std::size_t>(fast) > 2 * ways.size()) {
            group.uncounted.push_back(ribbon.name);
        }
        group.ribbons.push_back(ribbon.name);
        group.error_estimate = std::max(group.error_estimate, known.field.error_estimate);
        const double length_m = 1e-3 * ribbon.length.value();
        lower(group.ground_resonance, ground.size() < 2 ? 0.0 : 0.5 / (length_m * slowest));
        constexpr double share_of_wave = 0.15;  // from memory: beyond it radiation is missed
        lower(group.valid_to, share_of_wave / (slowest * 1e-3 * known.width.value()));
    }

    /// Of several ribbons the one furthest from what is wanted.
    static void keep_worse(const PairImpedance& z, const std::string& ribbon, PairLine& pair) {
        const double wanted = pair.least_impedance && pair.most_impedance
                                  ? 0.5 * (*pair.least_impedance + *pair.most_impedance).value()
                                  : 2.0 * reference_ohm;
        const bool worse = std::abs(z.z_diff - wanted) > std::abs(pair.worst.z_diff - wanted);
        if (!pair.ribbon.empty() && !worse) return;
        pair.ribbon = ribbon;
        pair.worst = z;
    }

    void name_ports(const std::vector<PairWay>& ways, const Interface& interface,
                    const Carry& promise, LineGroup& group) const {
        for (const PortRef port : {promise.from, promise.to}) {
            for (const PairWay& way : ways) {
                const Pair& pair = interface.pairs[way.pair];
                for (const std::size_t half : {pair.plus, pair.minus}) {
                    group.port_names.push_back(
                        fmt::format("{} as {} has it, at {}", interface.signals[half].name,
                                    name_of(design_, promise.from), name_of(design_, port)));
                }
            }
        }
    }

    static void run(const Channel& channel, GigabitsPerSecond rate, LineGroup& group) {
        const Signalling signalling{rate};
        group.sweep = sweep(channel, signalling.step(), signalling.points());
        const ChannelResult result = measure(group.sweep, channel.pairs, signalling);
        for (std::size_t p = 0; p < group.pairs.size(); ++p)
            group.pairs[p].result = result.pairs[p];
        for (const Crosstalk& crosstalk : result.crosstalk) {
            PairLine& victim = group.pairs[crosstalk.victim];
            if (!victim.aggressor.empty() && crosstalk.heard() <= victim.crosstalk) continue;
            victim.aggressor = group.pairs[crosstalk.aggressor].name;
            victim.crosstalk = crosstalk.heard();
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    RibbonLines ribbons_;
};

}  // namespace

std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring) {
    return LineMeasure(design, wiring).groups();
}

}  // namespace pinfold
