#include "check/lengths.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <span>

#include "physics/conductor.hpp"

namespace pinfold {
namespace {

/// Effective permittivity along an insulated wire beside its return; from memory.
constexpr double lead_permittivity = 1.8;

/// Effective permittivity along a bare ribbon's conductor: 5.06 to 5.31 ns/m for polyester film, by
/// solving its section; derived.
constexpr double ribbon_permittivity = 2.4;

/// The parts of a half's way that have a length of their own.
struct HalfWay {
    std::optional<Picoseconds> delay;
    std::set<std::string> boards_with_length;
    std::vector<ContactRef> contacts;
};

/// The first lead between two contacts; further ones lie beside it.
class LeadsBetween {
public:
    explicit LeadsBetween(const std::vector<Lead>& leads) {
        for (const Lead& lead : leads) first_.try_emplace(std::minmax(lead.from, lead.to), &lead);
    }

    const Lead* find(const ContactRef& one, const ContactRef& other) const {
        const auto lead = first_.find(std::minmax(one, other));
        return lead == first_.end() ? nullptr : lead->second;
    }

private:
    std::map<std::pair<ContactRef, ContactRef>, const Lead*> first_;
};

HalfWay way_of(const Design& design, const Wiring& wiring, const LeadsBetween& leads,
               const Pass& pass) {
    HalfWay way;
    const auto add = [&](Picoseconds time) {
        way.delay = way.delay.value_or(Picoseconds(0.0)) + time;
    };
    std::optional<ContactRef> before;
    for (std::size_t i = 0; i < pass.hops.size(); ++i) {
        const std::optional<ContactRef> here = wiring.contact_at(pass.hops[i]);
        if (here && before) {
            const std::optional<std::size_t> net = design.contact(*here).net;
            const Board& board = design.boards[here->port.board];
            const bool same_net =
                net && before->port.board == here->port.board && design.contact(*before).net == net;
            if (same_net && board.nets[*net].length) {
                add(delay_along(*board.nets[*net].length, board.permittivity));
                way.boards_with_length.insert(board.name);
                way.contacts.push_back(*here);
            }
            const Lead* lead = leads.find(*before, *here);
            if (lead) add(delay_along(lead->length, lead_permittivity));
        }
        const bool along_ribbon = i > 0 && !here && !before;
        if (along_ribbon) {
            const Ribbon& ribbon = design.ribbons[wiring.ribbon_at(pass.hops[i])];
            add(delay_along(ribbon.length, ribbon_permittivity));
        }
        before = here;
    }
    return way;
}

struct HalfPasses {
    const Pass* plus = nullptr;
    const Pass* minus = nullptr;
};

std::optional<double> limit_ps(const std::optional<Picoseconds>& time,
                               const std::optional<UnitIntervals>& bits, GigabitsPerSecond rate) {
    if (time) return time->value();
    if (bits) return bits->value() * 1000.0 / rate.value();
    return std::nullopt;
}

class SkewCheck {
public:
    SkewCheck(const Design& design, const Wiring& wiring)
        : design_(design), delays_(pair_delays(design, wiring)) {}

    Findings find() {
        for (std::size_t c = 0; c < design_.carries.size(); ++c) check_carry(c);
        return std::move(findings_);
    }

private:
    void add(Severity severity, const char* rule, std::string text, const Mark& at,
             std::vector<std::string> places) {
        findings_.push_back({severity, rule, std::move(text), at, {}, std::move(places), {}});
    }

    void check_carry(std::size_t c) {
        const Carry& carry = design_.carries[c];
        if (carry.interface.empty()) return;
        const Interface& interface = design_.interfaces.at(carry.interface);
        if (interface.limits.empty()) return;
        if (!carry.rate) {
            add(Severity::note, "rate-missing",
                fmt::format("'{}' states no rate, so no limit was applied; give 'rate'",
                            carry.name),
                carry.at, {carry.name});
            return;
        }
        const Limit* limit = interface.limit_at(*carry.rate);
        if (!limit) {
            add(Severity::warning, "rate-unlisted",
                fmt::format("{} has limits up to {:g} Gbit/s, not for {:g} Gbit/s", interface.id,
                            interface.limits.back().up_to.value(), carry.rate->value()),
                carry.at, {carry.name});
            return;
        }
        const std::span<const PairDelay> pairs = delays_of(c);
        for (const PairDelay& pair : pairs) check_pair(pair, *limit, *carry.rate);
        check_between(c, pairs, *limit, *carry.rate);
    }

    std::span<const PairDelay> delays_of(std::size_t c) const {
        const auto first = std::ranges::lower_bound(delays_, c, {}, &PairDelay::carry);
        const auto last = std::ranges::upper_bound(delays_, c, {}, &PairDelay::carry);
        return {first, last};
    }

    void check_pair(const PairDelay& pair, const Limit& limit, GigabitsPerSecond rate) {
        if (pair.incomplete) {
            add(Severity::note, "length-missing",
                fmt::format("pair {} has a length for one half only on some board", pair.name),
                pair.at, {pair.name});
            return;
        }
        const auto most = limit_ps(limit.skew_in_pair, limit.skew_in_pair_bits, rate);
        if (!pair.plus || !pair.minus || !most) return;
        const double skew_ps = std::abs((*pair.plus - *pair.minus).value());
        if (skew_ps <= *most) return;
        add(Severity::error, "skew-in-pair",
            fmt::format("the halves of pair {} arrive {:.1f} ps apart, the limit at {:g} Gbit/s "
                        "is {:.1f} ps ({})",
                        pair.name, skew_ps, rate.value(), *most, limit.source),
            pair.at, {pair.name});
    }

    void check_between(std::size_t c, std::span<const PairDelay> pairs, const Limit& limit,
                       GigabitsPerSecond rate) {
        const auto most = limit_ps(limit.skew_between_pairs, limit.skew_between_pairs_bits, rate);
        if (!most) return;
        const PairDelay* early = nullptr;
        const PairDelay* late = nullptr;
        const std::set<std::string> boards = best_known(pairs);
        std::vector<std::string> unlike;
        for (const PairDelay& pair : pairs) {
            if (pair.incomplete || !pair.plus || !pair.minus) continue;
            if (pair.boards != boards) {
                unlike.push_back(pair.name);
                continue;
            }
            if (!early || mean_ps(pair) < mean_ps(*early)) early = &pair;
            if (!late || mean_ps(pair) > mean_ps(*late)) late = &pair;
        }
        add_unlike(c, unlike);
        if (!early || mean_ps(*late) - mean_ps(*early) <= *most) return;
        add(Severity::error, "skew-between-pairs",
            fmt::format("pair {} arrives {:.1f} ps after pair {}, the limit at {:g} Gbit/s is "
                        "{:.1f} ps ({})",
                        late->name, mean_ps(*late) - mean_ps(*early), early->name, rate.value(),
                        *most, limit.source),
            late->at, {late->name, early->name});
    }

    /// The boards whose lengths the best known pair of a promise has.
    static std::set<std::string> best_known(std::span<const PairDelay> pairs) {
        std::set<std::string> boards;
        for (const PairDelay& pair : pairs) {
            if (!pair.incomplete && pair.boards.size() > boards.size()) boards = pair.boards;
        }
        return boards;
    }

    void add_unlike(std::size_t c, const std::vector<std::string>& pairs) {
        if (pairs.empty()) return;
        const Carry& carry = design_.carries[c];
        std::vector<std::string> places = pairs;
        places.insert(places.begin(), carry.name);
        add(Severity::note, "length-missing",
            fmt::format("{} of '{}' lack{} lengths that another pair has, and {} not compared with "
                        "it",
                        fmt::join(pairs, ", "), carry.name, pairs.size() == 1 ? "s" : "",
                        pairs.size() == 1 ? "was" : "were"),
            carry.at, std::move(places));
    }

    static double mean_ps(const PairDelay& pair) {
        return 0.5 * (pair.plus->value() + pair.minus->value());
    }

    const Design& design_;
    std::vector<PairDelay> delays_;  ///< in order of their carries
    Findings findings_;
};

}  // namespace

std::vector<PairDelay> pair_delays(const Design& design, const Wiring& wiring) {
    std::map<std::pair<std::size_t, std::size_t>, HalfPasses> halves;
    for (const Pass& pass : wiring.passes()) {
        if (pass.role != Role::pair_half || pass.state != State::good) continue;
        const Interface* near = design.interface_of(design.port(pass.from.port));
        const std::size_t pair = *near->signals[pass.signal].pair;
        HalfPasses& both = halves[{pass.carry, pair}];
        (near->pairs[pair].plus == pass.signal ? both.plus : both.minus) = &pass;
    }
    const LeadsBetween leads(design.leads);
    std::vector<PairDelay> delays;
    for (const auto& [key, both] : halves) {
        const Interface* near = design.interface_of(design.port(design.carries[key.first].from));
        const Pair& pair = near->pairs[key.second];
        if (!both.plus || !both.minus || pair.kind == PairKind::slow) continue;
        const HalfWay plus = way_of(design, wiring, leads, *both.plus);
        const HalfWay minus = way_of(design, wiring, leads, *both.minus);
        const bool incomplete = plus.boards_with_length != minus.boards_with_length;
        const Mark at = plus.contacts.empty() ? design.carries[key.first].at
                                              : design.contact(plus.contacts.front()).at;
        delays.push_back({pair.name, key.first, plus.delay, minus.delay, incomplete,
                          plus.boards_with_length, plus.contacts, at});
    }
    return delays;
}

Findings check_lengths(const Design& design, const Wiring& wiring) {
    return SkewCheck(design, wiring).find();
}

}  // namespace pinfold
