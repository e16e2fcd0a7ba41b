#include "check/line.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "check/occupant.hpp"
#include "check/ribbon_section.hpp"
#include "physics/conductor.hpp"
#include "physics/field.hpp"

namespace pinfold {
namespace {

constexpr double light_mm_per_ps = 0.299792458;
constexpr double contact_henries = 1e-9;  ///< common practice
constexpr double contact_ohm = 0.05;      ///< common practice
constexpr std::size_t most_conductors = 200;

/// A ribbon on the way of a half, entered at one end, on one conductor.
struct Crossing {
    std::size_t ribbon = 0;
    bool from_a = true;
    ConductorNumber conductor{1};
};

/// What a half meets from port to port: a stretch of boards before each ribbon and after the last.
struct HalfWay {
    std::vector<Crossing> crossings;
    std::vector<double> trace_ps{0.0};  ///< one more than crossings
    bool over_leads = false;
};

class WayFinder {
public:
    WayFinder(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    HalfWay way_of(const Pass& pass) const {
        HalfWay way;
        std::optional<ContactRef> before;
        for (std::size_t i = 0; i < pass.hops.size(); ++i) {
            const std::optional<ContactRef> here = wiring_.contact_at(pass.hops[i]);
            if (here && before) add_trace(*before, *here, way);
            if (!here && !before && i > 0) add_ribbon(pass.hops[i - 1], pass.hops[i], way);
            before = here;
        }
        return way;
    }

private:
    void add_trace(const ContactRef& from, const ContactRef& to, HalfWay& way) const {
        const std::optional<std::size_t> net = design_.contact(to).net;
        if (from.port.board != to.port.board) {
            way.over_leads = way.over_leads || leads_.contains(std::minmax(from, to));
            return;
        }
        const Board& board = design_.boards[to.port.board];
        if (!net || design_.contact(from).net != net || !board.nets[*net].length) return;
        way.trace_ps.back() += delay_along(*board.nets[*net].length, board.permittivity).value();
    }

    void add_ribbon(Point from, Point to, HalfWay& way) const {
        const std::size_t ribbon = wiring_.ribbon_at(from);
        const Point first = wiring_.point_of(ribbon, End::a, ConductorNumber(1));
        const auto count = static_cast<Point>(design_.ribbons[ribbon].conductors);
        const auto place = static_cast<int>((from - first) % count);
        // The conductors of end a are numbered before those of end b.
        for (const Occupant& occupant : row_of(ribbon)) {
            if (occupant.conductor.number() != place + 1) continue;
            way.crossings.push_back({ribbon, from < to, occupant.conductor});
        }
        way.trace_ps.push_back(0.0);
    }

public:
    const std::vector<Occupant>& row_of(std::size_t ribbon) const {
        const auto [row, is_new] = rows_.try_emplace(ribbon);
        if (is_new) row->second = occupants(design_, wiring_, ribbon);
        return row->second;
    }

private:
    static std::set<std::pair<ContactRef, ContactRef>> leads_of(const Design& design) {
        std::set<std::pair<ContactRef, ContactRef>> leads;
        for (const Lead& lead : design.leads) leads.insert(std::minmax(lead.from, lead.to));
        return leads;
    }

    const Design& design_;
    const Wiring& wiring_;
    mutable std::map<std::size_t, std::vector<Occupant>> rows_;
    std::set<std::pair<ContactRef, ContactRef>> leads_ = leads_of(design_);
};

struct PairWay {
    std::size_t carry = 0;
    std::size_t pair = 0;  ///< in the interface of the near port
    HalfWay plus, minus;
};

/// The ribbons a pair crosses and from which end; empty if its halves go different ways.
std::vector<std::pair<std::size_t, bool>> course_of(const PairWay& way) {
    std::vector<std::pair<std::size_t, bool>> course;
    if (way.plus.over_leads || way.minus.over_leads) return {};
    if (way.plus.crossings.size() != way.minus.crossings.size()) return {};
    for (std::size_t i = 0; i < way.plus.crossings.size(); ++i) {
        const Crossing& one = way.plus.crossings[i];
        const Crossing& other = way.minus.crossings[i];
        if (one.ribbon != other.ribbon || one.from_a != other.from_a) return {};
        course.emplace_back(one.ribbon, one.from_a);
    }
    return course;
}

std::vector<PairWay> pair_ways(const Design& design, const Wiring& wiring,
                               const WayFinder& finder) {
    std::map<std::pair<std::size_t, std::size_t>, std::pair<const Pass*, const Pass*>> halves;
    for (const Pass& pass : wiring.passes()) {
        if (pass.role != Role::pair_half || pass.state != State::good) continue;
        const Interface* near = design.interface_of(design.port(pass.from.port));
        const std::size_t pair = *near->signals[pass.signal].pair;
        auto& both = halves[{pass.carry, pair}];
        (near->pairs[pair].plus == pass.signal ? both.first : both.second) = &pass;
    }
    std::vector<PairWay> ways;
    for (const auto& [key, both] : halves) {
        const Interface* near = design.interface_of(design.port(design.carries[key.first].from));
        if (!both.first || !both.second) continue;
        if (near->pairs[key.second].kind == PairKind::slow) continue;
        ways.push_back(
            {key.first, key.second, finder.way_of(*both.first), finder.way_of(*both.second)});
    }
    return ways;
}

/// A ribbon with its field solved.
struct SolvedRibbon {
    FieldSolution field;
    double width_mm = 0.0;
};

class LineMeasure {
public:
    LineMeasure(const Design& design, const Wiring& wiring)
        : design_(design), wiring_(wiring), finder_(design, wiring) {}

    std::vector<LineGroup> groups() {
        using Course = std::vector<std::pair<std::size_t, bool>>;
        std::map<std::pair<std::size_t, Course>, std::vector<PairWay>> by_course;
        for (PairWay& way : pair_ways(design_, wiring_, finder_)) {
            const Course course = course_of(way);
            if (course.empty() || !std::ranges::all_of(course, [&](const auto& crossing) {
                    return can_solve(crossing.first);
                })) {
                continue;
            }
            by_course[{way.carry, course}].push_back(std::move(way));
        }
        std::vector<LineGroup> groups;
        for (const auto& [key, ways] : by_course) groups.push_back(group_of(key.first, ways));
        return groups;
    }

private:
    bool can_solve(std::size_t ribbon) const {
        const auto& row = finder_.row_of(ribbon);
        const bool grounded = std::ranges::any_of(
            row, [&](const Occupant& o) { return ending_of(o, ribbon) == Ending::tied; });
        return grounded && row.size() <= most_conductors &&
               section_of(design_, design_.ribbons[ribbon]).has_value();
    }

    /// What a conductor is to a pair that is not on it: tied only if both ends meet the boards.
    Ending ending_of(const Occupant& occupant, std::size_t ribbon) const {
        for (const End end : {End::a, End::b}) {
            if (!wiring_.contact_of(design_, ribbon, end, occupant.conductor)) return Ending::open;
        }
        if (occupant.kind == Occupant::Kind::open) return Ending::open;
        const bool tied =
            occupant.kind == Occupant::Kind::ground || occupant.kind == Occupant::Kind::supply;
        return tied ? Ending::tied : Ending::loaded;
    }

    const SolvedRibbon& solved(std::size_t ribbon) {
        const Ribbon& r = design_.ribbons[ribbon];
        const double thickness = r.thickness.value_or(Millimetres(0.0)).value();
        const auto [at, is_new] = solved_.try_emplace({r.type, r.conductors, thickness});
        if (is_new) {
            const Section section = *section_of(design_, r);
            at->second = {solve_field(section), section.conductors.back().x.value()};
        }
        return at->second;
    }

    ContactImpedance contact_of(std::size_t ribbon, End end) const {
        const RibbonEnds& ends = wiring_.ends_of(ribbon);
        const std::optional<std::size_t> seat = end == End::a ? ends.a : ends.b;
        ContactImpedance contact{Ohms(contact_ohm), Henries(contact_henries)};
        if (!seat) return contact;
        const Port& port = design_.port(design_.seats[*seat].port);
        if (!port.ribbon) return contact;
        const auto type = design_.receptacle_types.find(port.ribbon->receptacle);
        if (type != design_.receptacle_types.end() && type->second.contact_resistance) {
            contact.resistance = *type->second.contact_resistance;
        }
        return contact;
    }

    /// The line of a ribbon with its ports; `kept` are the conductors left beside the reference.
    struct RibbonLine {
        Stretch stretch;
        std::vector<std::size_t> kept;
    };

    RibbonLine ribbon_line(const std::vector<PairWay>& ways, std::size_t place) {
        const Crossing& first = ways.front().plus.crossings[place];
        const auto& row = finder_.row_of(first.ribbon);
        std::vector<Ending> endings;
        for (const Occupant& o : row) endings.push_back(ending_of(o, first.ribbon));
        std::vector<std::size_t> ports;  // conductors, in the order of the channel's ports
        for (const PairWay& way : ways) {
            ports.push_back(way.plus.crossings[place].conductor.index());
            ports.push_back(way.minus.crossings[place].conductor.index());
        }
        for (const std::size_t port : ports) endings[port] = Ending::port;
        const auto reference =
            static_cast<std::size_t>(std::ranges::find(endings, Ending::tied) - endings.begin());
        RibbonLine line;
        LineEnd near{{}, contact_of(first.ribbon, first.from_a ? End::a : End::b), true};
        LineEnd far{{}, contact_of(first.ribbon, first.from_a ? End::b : End::a), true};
        for (std::size_t i = 0; i < endings.size(); ++i) {
            if (i == reference) continue;
            line.kept.push_back(i);
            near.endings.push_back(endings[i]);
        }
        far.endings = near.endings;
        line.stretch.lines = {{per_metre(solved(first.ribbon).field, {reference}),
                               design_.ribbons[first.ribbon].length, near, far}};
        std::vector<std::size_t> sorted = ports;
        std::ranges::sort(sorted);
        for (const std::size_t port : ports) {
            line.stretch.order.push_back(
                static_cast<std::size_t>(std::ranges::lower_bound(sorted, port) - sorted.begin()));
        }
        return line;
    }

    /// Matched traces of so many picoseconds: 50 ohm at the speed of light, longer in proportion.
    static EndedLine trace(double delay_ps) {
        const Eigen::MatrixXd none = Eigen::MatrixXd::Zero(1, 1);
        const double speed = light_mm_per_ps * 1e9;  // m/s
        const PerMetre line{Eigen::MatrixXd::Constant(1, 1, 1.0 / (reference_ohm * speed)),
                            Eigen::MatrixXd::Constant(1, 1, 1.0 / (reference_ohm * speed)),
                            none,
                            Eigen::MatrixXd::Constant(1, 1, reference_ohm / speed),
                            none,
                            none};
        const LineEnd end{{Ending::port}, {}, false};
        return {line, Millimetres(light_mm_per_ps * delay_ps), end, end};
    }

    static Stretch traces(const std::vector<PairWay>& ways, std::size_t place) {
        Stretch stretch;
        for (const PairWay& way : ways) {
            for (const HalfWay* half : {&way.plus, &way.minus}) {
                stretch.order.push_back(stretch.lines.size());
                stretch.lines.push_back(trace(half->trace_ps[place]));
            }
        }
        return stretch;
    }

    LineGroup group_of(std::size_t carry, const std::vector<PairWay>& ways) {
        const Carry& promise = design_.carries[carry];
        const Interface& interface = *design_.interface_of(design_.port(promise.from));
        LineGroup group;
        group.carry = carry;
        Channel channel;
        const std::size_t ribbons = ways.front().plus.crossings.size();
        const Limit* limit = promise.rate ? interface.limit_at(*promise.rate) : nullptr;
        for (const PairWay& way : ways) group.pairs.push_back(pair_line(way, interface, limit));
        for (std::size_t place = 0; place < ribbons; ++place) {
            channel.stretches.push_back(traces(ways, place));
            channel.stretches.push_back(ribbon_line(ways, place).stretch);
            describe_ribbon(ways, place, group);
        }
        channel.stretches.push_back(traces(ways, ribbons));
        for (const PairWay& way : ways) {
            const Pair& pair = interface.pairs[way.pair];
            channel.pairs.push_back({interface.signals[pair.plus].direction != Direction::back,
                                     pair.kind != PairKind::clock});
        }
        name_ports(ways, interface, promise, group);
        if (promise.rate) run(channel, *promise.rate, group);
        return group;
    }

    PairLine pair_line(const PairWay& way, const Interface& interface, const Limit* limit) const {
        PairLine line;
        line.carry = way.carry;
        line.name = interface.pairs[way.pair].name;
        line.listened = interface.pairs[way.pair].kind != PairKind::clock;
        double plus_ps = 0.0, minus_ps = 0.0;
        for (const double ps : way.plus.trace_ps) plus_ps += ps;
        for (const double ps : way.minus.trace_ps) minus_ps += ps;
        line.skew = Picoseconds(plus_ps - minus_ps);
        line.delay = Picoseconds(0.5 * (plus_ps + minus_ps));
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
        const std::size_t r = ways.front().plus.crossings[place].ribbon;
        const Ribbon& ribbon = design_.ribbons[r];
        const auto& row = finder_.row_of(r);
        std::vector<std::size_t> ground, kept;
        std::size_t on_ports = 0, halves = 0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            (ending_of(row[i], r) == Ending::tied ? ground : kept).push_back(i);
            halves += row[i].fast ? 1 : 0;
        }
        const SolvedRibbon& known = solved(r);
        const PerMetre line = per_metre(known.field, ground);
        double slowest = 0.0;
        for (std::size_t p = 0; p < ways.size(); ++p) {
            const auto at = [&](const HalfWay& half) {
                const std::size_t conductor = half.crossings[place].conductor.index();
                return static_cast<std::size_t>(std::ranges::lower_bound(kept, conductor) -
                                                kept.begin());
            };
            const PairImpedance z = pair_impedance(line, at(ways[p].plus), at(ways[p].minus));
            PairLine& pair = group.pairs[p];
            pair.delay = pair.delay + Picoseconds(z.delay * 1e9 * ribbon.length.value());
            slowest = std::max(slowest, z.delay);
            on_ports += 2;
            const double wanted = pair.least_impedance && pair.most_impedance
                                      ? 0.5 * (*pair.least_impedance + *pair.most_impedance).value()
                                      : 2.0 * reference_ohm;
            if (pair.ribbon.empty() ||
                std::abs(z.z_diff - wanted) > std::abs(pair.worst.z_diff - wanted)) {
                pair.ribbon = ribbon.name;
                pair.worst = z;
            }
        }
        if (halves > on_ports) group.uncounted.push_back(ribbon.name);
        group.ribbons.push_back(ribbon.name);
        group.error_estimate = std::max(group.error_estimate, known.field.error_estimate);
        const double length_m = 1e-3 * ribbon.length.value();
        lower(group.ground_resonance, ground.size() < 2 ? 0.0 : 0.5 / (length_m * slowest));
        constexpr double share_of_wave = 0.15;  // from memory: beyond it radiation is missed
        lower(group.valid_to, share_of_wave / (slowest * 1e-3 * known.width_mm));
    }

    static void lower(Hertz& least, double hertz) {
        if (hertz > 0.0 && (least.value() == 0.0 || hertz < least.value())) least = Hertz(hertz);
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
    WayFinder finder_;
    std::map<std::tuple<std::string, int, double>, SolvedRibbon> solved_;
};

}  // namespace

std::vector<LineGroup> measure_lines(const Design& design, const Wiring& wiring) {
    return LineMeasure(design, wiring).groups();
}

Findings judge_lines(const Design& design, const std::vector<LineGroup>& groups) {
    Findings findings;
    const auto add = [&](Severity severity, const char* rule, std::string text,
                         const LineGroup& group, std::vector<std::string> places) {
        findings.push_back({severity,
                            rule,
                            std::move(text),
                            design.carries[group.carry].at,
                            {},
                            std::move(places),
                            {}});
    };
    for (const LineGroup& group : groups) {
        const Carry& promise = design.carries[group.carry];
        if (!promise.rate) continue;
        for (const PairLine& pair : group.pairs) {
            const double z = pair.worst.z_diff;
            if (pair.least_impedance &&
                (z < pair.least_impedance->value() || z > pair.most_impedance->value())) {
                add(Severity::warning, "impedance-off",
                    fmt::format("pair {} has {:.0f} ohm on {}, {} wants {:.0f} to {:.0f} ohm ({})",
                                pair.name, z, pair.ribbon, promise.interface,
                                pair.least_impedance->value(), pair.most_impedance->value(),
                                pair.source),
                    group, {pair.name, pair.ribbon});
            }
            if (pair.result && pair.listened && pair.result->eye.opening <= 0.0) {
                add(Severity::error, "eye-closed",
                    fmt::format("the eye of pair {} can close at {:g} Gbit/s: a bit brings {:.2f} "
                                "of what is sent, other bits can take {:.2f}, other pairs {:.2f}",
                                pair.name, promise.rate->value(), pair.result->eye.cursor,
                                pair.result->eye.other_bits, pair.result->eye.neighbours),
                    group, {pair.name, promise.name});
            }
        }
        const double band = band_of_rate * promise.rate->value() * 1e9;
        const double resonance = group.ground_resonance.value();
        if (resonance > 0.0 && resonance < band) {
            add(Severity::note, "ground-resonance",
                fmt::format("the grounds of {} resonate at {:.2f} GHz, within the band of {:g} "
                            "Gbit/s, which ends at {:.2f} GHz: the pairs couple more there",
                            fmt::join(group.ribbons, ", "), resonance * 1e-9, promise.rate->value(),
                            band * 1e-9),
                group, group.ribbons);
        }
        if (group.valid_to.value() > 0.0 && group.valid_to.value() < band) {
            add(Severity::note, "model-limit",
                fmt::format("above {:.1f} GHz {} is too wide for the model, which leaves out "
                            "radiation; the band ends at {:.2f} GHz",
                            group.valid_to.value() * 1e-9, fmt::join(group.ribbons, ", "),
                            band * 1e-9),
                group, group.ribbons);
        }
    }
    return findings;
}

}  // namespace pinfold
