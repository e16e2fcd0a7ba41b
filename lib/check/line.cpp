#include "check/line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "check/board_traces.hpp"
#include "check/pair_channel.hpp"
#include "check/way_delay.hpp"
#include "physics/validity.hpp"

namespace pinfold {
namespace {

void lower(Hertz& least, double hertz) {
    if (hertz > 0.0 && (least.value() == 0.0 || hertz < least.value())) least = Hertz(hertz);
}

class LineMeasure {
public:
    LineMeasure(const Design& design, const Wiring& wiring, LineMemory& memory)
        : design_(design), memory_(memory), ribbons_(design, wiring, memory) {}

    LineGroup group_of(std::size_t carry, const std::vector<PairWay>& ways,
                       const std::vector<Beside>& beside) {
        const Carry& promise = design_.carries[carry];
        const Interface& interface = interface_of(carry);
        const Limit* limit = promise.rate ? interface.limit_at(*promise.rate) : nullptr;
        LineGroup group;
        group.carry = carry;
        if (limit) group.limit = *limit;
        group.plan = plan_of(design_, ribbons_, ways, beside);
        for (const Beside& other : beside) group.heard.push_back(name_of_other(other));
        for (const PairWay& way : ways) group.pairs.push_back(pair_line(way, interface));
        for (std::size_t place = 0; place < group.plan.ribbons.size(); ++place) {
            describe_ribbon(ways, place, group);
        }
        for (std::size_t place = 0; place < group.plan.landings.size(); ++place) {
            describe_traces(ways, place, group);
        }
        const ChannelResult* result = promise.rate ? memory_.result_of(group.plan) : nullptr;
        group.untried = promise.rate && !result;
        if (result) take(*result, group);
        return group;
    }

    RibbonLines& ribbons() { return ribbons_; }

private:
    const Interface& interface_of(std::size_t carry) const {
        return *design_.interface_of(design_.port(design_.carries[carry].from));
    }

    /// `D0 of camera.link`, after the port it starts from.
    std::string name_of_other(const Beside& other) const {
        const Interface& interface = interface_of(other.carry());
        return fmt::format("{} of {}",
                           other.single ? interface.signals[other.single->signal].name
                                        : interface.pairs[other.pair->pair].name,
                           name_of(design_, design_.carries[other.carry()].from));
    }

    /// How many of the conductors on a ribbon are halves of the plan's pairs.
    static std::size_t halves_on(const ChannelPlan& plan, std::size_t place) {
        std::size_t halves = 0, port = 0;
        for (const Drive& drive : plan.pairs) {
            for (std::size_t end = port + (drive.single ? 1 : 2); port < end; ++port) {
                halves += !drive.single && plan.ribbons[place].ports[port] ? 1 : 0;
            }
        }
        return halves;
    }

    PairLine pair_line(const PairWay& way, const Interface& interface) {
        const WayDelay delay = delay_of(design_, ribbons_, way);
        const Picoseconds plus = delay.plus.delay.value_or(Picoseconds(0.0));
        const Picoseconds minus = delay.minus.delay.value_or(Picoseconds(0.0));
        PairLine line;
        line.pair = way.pair;
        line.name = interface.pairs[way.pair].name;
        line.listened = interface.pairs[way.pair].kind != PairKind::clock;
        line.delay = 0.5 * (plus + minus);
        line.skew = plus - minus;
        return line;
    }

    /// Each pair on one ribbon, all that is tied taken as one ground.
    void describe_ribbon(const std::vector<PairWay>& ways, std::size_t place, LineGroup& group) {
        const std::size_t r = ways.front().plus.ribbons[place].ribbon;
        const Ribbon& ribbon = design_.ribbons[r];
        const RibbonUse& use = ribbons_.use_of(r);
        double slowest = 0.0;
        for (std::size_t p = 0; p < ways.size(); ++p) {
            const PairImpedance& z =
                ribbons_.pair_on(ways[p].plus.ribbons[place], ways[p].minus.ribbons[place])
                    .impedance;
            slowest = std::max(slowest, z.delay);
            keep_worse(z, ribbon.name, group.limit, group.pairs[p]);
        }
        if (use.fast > halves_on(group.plan, place)) group.uncounted.push_back(ribbon.name);
        group.ribbons.push_back(ribbon.name);
        group.error_estimate = std::max(group.error_estimate, use.field->error_estimate);
        const double length_m = 1e-3 * ribbon.length.value();
        const bool ring = use.grounds.size() >= 2 && !use.field->planes;
        lower(group.ground_resonance, ring ? 0.5 / (length_m * slowest) : 0.0);
        lower(group.valid_to, quasi_static_limit(use.span, slowest).value());
    }

    void describe_traces(const std::vector<PairWay>& ways, std::size_t place, LineGroup& group) {
        for (std::size_t p = 0; p < ways.size(); ++p) {
            const std::vector<TracesPlan>& plans = group.plan.landings[place][p];
            for (std::size_t i = 0; i < plans.size(); ++i) {
                if (!plans[i].line) continue;
                const TraceLeg& leg = ways[p].plus.landings[place].traces[i];
                group.traces.push_back({design_.boards[leg.to.port.board].name, group.pairs[p].name,
                                        impedance_of(memory_, *plans[i].line)});
                group.error_estimate =
                    std::max(group.error_estimate, plans[i].line->field->error_estimate);
            }
        }
    }

    /// Of several ribbons the one furthest from what is wanted.
    static void keep_worse(const PairImpedance& z, const std::string& ribbon,
                           const std::optional<Limit>& limit, PairLine& pair) {
        const double wanted =
            limit && limit->impedance ? limit->impedance->value() : 2.0 * reference_ohm;
        const bool worse = std::abs(z.z_diff - wanted) > std::abs(pair.worst.z_diff - wanted);
        if (!pair.ribbon.empty() && !worse) return;
        pair.ribbon = ribbon;
        pair.worst = z;
    }

    static void take(const ChannelResult& result, LineGroup& group) {
        for (std::size_t p = 0; p < group.pairs.size(); ++p)
            group.pairs[p].result = result.pairs[p];
        for (const Crosstalk& crosstalk : result.crosstalk) {
            PairLine& victim = group.pairs[crosstalk.victim];
            if (!victim.aggressor.empty() && crosstalk.heard() <= victim.crosstalk) continue;
            const std::size_t own = group.pairs.size();
            victim.aggressor = crosstalk.aggressor < own ? group.pairs[crosstalk.aggressor].name
                                                         : group.heard[crosstalk.aggressor - own];
            victim.crosstalk = crosstalk.heard();
        }
    }

    const Design& design_;
    LineMemory& memory_;
    RibbonLines ribbons_;
};

/// A promise and the ribbons that some of it crosses.
using OnCourse = std::pair<std::size_t, RibbonCourse>;
/// Pairs by promise and course.
using PairsByCourse = std::map<OnCourse, std::vector<PairWay>>;

/// Which pairs and singles run over a ribbon.
class OnRibbons {
public:
    /// All must outlive this.
    void add(const OnCourse& course, Beside way) {
        for (const auto& [ribbon, from_a] : course.second) {
            on_ribbon_[ribbon].push_back(ways_.size());
        }
        ways_.push_back({&course, std::move(way)});
    }

    /// Those of other promises, or of other courses, that run beside the pairs of a course; of what
    /// is promised twice over one conductor the first alone.
    std::vector<Beside> beside(const OnCourse& course) const {
        std::set<std::size_t> others;
        for (const auto& [ribbon, from_a] : course.second) {
            for (const std::size_t way : on_ribbon_.at(ribbon)) {
                if (ways_[way].first != &course) others.insert(way);
            }
        }
        std::set<std::pair<std::size_t, int>> taken;
        for (const auto& [own, way] : ways_) {
            if (own == &course) take(way, taken);
        }
        std::vector<Beside> found;
        for (const std::size_t other : others) {
            if (!take(ways_[other].second, taken)) continue;
            const std::optional<Beside> beside =
                along(course.second, ways_[other].second, ways_[other].first->second);
            if (beside) found.push_back(*beside);
        }
        return found;
    }

private:
    /// Marks a way's conductors as taken, unless one of them is already.
    static bool take(const Beside& way, std::set<std::pair<std::size_t, int>>& taken) {
        std::set<std::pair<std::size_t, int>> own;
        for (const HalfWay* half : way.halves()) {
            for (const RibbonLeg& leg : half->ribbons) {
                own.emplace(leg.ribbon, leg.conductor.number());
            }
        }
        const auto is_taken = [&](const auto& conductor) { return taken.contains(conductor); };
        if (std::ranges::any_of(own, is_taken)) return false;
        taken.merge(own);
        return true;
    }

    std::vector<std::pair<const OnCourse*, Beside>> ways_;
    std::map<std::size_t, std::vector<std::size_t>> on_ribbon_;
};

}  // namespace

Volts LineGroup::swing() const {
    return limit && limit->least_swing ? *limit->least_swing : Volts(1.0);
}

std::optional<ImpedanceWindow> window_of(const std::optional<Limit>& limit) {
    if (!limit || !limit->impedance || !limit->tolerance) return std::nullopt;
    const double share = 0.01 * limit->tolerance->value();
    return ImpedanceWindow{(1.0 - share) * *limit->impedance, (1.0 + share) * *limit->impedance};
}

std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring,
                                     LineMemory& memory) {
    std::vector<std::size_t> all(design.carries.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return measure_lines(design, wiring, memory, all);
}

std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring, LineMemory& memory,
                                     const std::vector<std::size_t>& carries) {
    if (carries.empty()) return {};
    LineMeasure measure(design, wiring, memory);
    PairsByCourse by_course;
    for (PairWay& way : pair_ways(design, wiring)) {
        RibbonCourse course = course_of(measure.ribbons(), way.plus, way.minus);
        if (!course.empty()) by_course[{way.carry, std::move(course)}].push_back(std::move(way));
    }
    std::map<OnCourse, std::vector<SingleWay>> singles;
    for (SingleWay& way : fast_single_ways(design, wiring)) {
        RibbonCourse course = course_of(measure.ribbons(), way.way, way.way);
        if (!course.empty()) singles[{way.carry, std::move(course)}].push_back(std::move(way));
    }
    OnRibbons on_ribbons;
    for (const auto& [course, ways] : by_course) {
        for (const PairWay& way : ways) on_ribbons.add(course, {&way, nullptr, false, {}});
    }
    for (const auto& [course, ways] : singles) {
        for (const SingleWay& way : ways) on_ribbons.add(course, {nullptr, &way, false, {}});
    }
    std::vector<LineGroup> groups;
    for (const auto& [course, ways] : by_course) {
        if (!std::ranges::binary_search(carries, course.first)) continue;
        groups.push_back(measure.group_of(course.first, ways, on_ribbons.beside(course)));
    }
    return groups;
}

std::vector<std::string> port_names(const Design& design, const LineGroup& group) {
    const Carry& promise = design.carries[group.carry];
    const Interface& interface = *design.interface_of(design.port(promise.from));
    std::vector<std::string> names;
    for (const PortRef port : {promise.from, promise.to}) {
        for (const PairLine& line : group.pairs) {
            const Pair& pair = interface.pairs[line.pair];
            for (const std::size_t half : {pair.plus, pair.minus}) {
                names.push_back(fmt::format("{} as {} has it, at {}", interface.signals[half].name,
                                            name_of(design, promise.from), name_of(design, port)));
            }
        }
    }
    return names;
}

}  // namespace pinfold
