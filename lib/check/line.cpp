#include "check/line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

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
        for (const Beside& other : beside) group.heard.push_back(name_of_other(*other.way));
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
    std::string name_of_other(const PairWay& way) const {
        return fmt::format("{} of {}", interface_of(way.carry).pairs[way.pair].name,
                           name_of(design_, design_.carries[way.carry].from));
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
        const auto& ports = group.plan.ribbons[place].ports;
        const auto counted = std::ranges::count_if(ports, [](const auto& p) { return !!p; });
        if (use.fast > static_cast<std::size_t>(counted)) group.uncounted.push_back(ribbon.name);
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

/// Pairs by promise and course.
using PairsByCourse = std::map<std::pair<std::size_t, RibbonCourse>, std::vector<PairWay>>;

/// Which pairs run over a ribbon.
class OnRibbons {
public:
    explicit OnRibbons(const PairsByCourse& pairs) {
        for (const auto& group : pairs) {
            for (const auto& [ribbon, from_a] : group.first.second) {
                groups_[ribbon].push_back(&group);
            }
        }
    }

    /// The pairs of other promises, or of other courses, that run beside those of a group.
    std::vector<Beside> beside(const PairsByCourse::value_type& group) const {
        std::vector<const PairsByCourse::value_type*> others;
        const RibbonCourse& course = group.first.second;
        for (const auto& [ribbon, from_a] : course) {
            for (const auto* other : groups_.at(ribbon)) {
                const bool known = std::ranges::find(others, other) != others.end();
                if (other != &group && !known) others.push_back(other);
            }
        }
        std::ranges::sort(others, {}, [](const auto* other) { return other->first; });
        std::vector<Beside> found;
        for (const auto* other : others) {
            for (const PairWay& way : other->second) {
                const std::optional<Beside> beside = along(course, way, other->first.second);
                if (beside) found.push_back(*beside);
            }
        }
        return found;
    }

private:
    std::map<std::size_t, std::vector<const PairsByCourse::value_type*>> groups_;
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
        RibbonCourse course = course_of(measure.ribbons(), way);
        if (!course.empty()) by_course[{way.carry, std::move(course)}].push_back(std::move(way));
    }
    const OnRibbons on_ribbons(by_course);
    std::vector<LineGroup> groups;
    for (const auto& group : by_course) {
        const std::size_t carry = group.first.first;
        if (!std::ranges::binary_search(carries, carry)) continue;
        groups.push_back(measure.group_of(carry, group.second, on_ribbons.beside(group)));
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
