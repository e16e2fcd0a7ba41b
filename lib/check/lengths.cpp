#include "check/lengths.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "check/way_delay.hpp"

namespace pinfold {
namespace {

std::optional<double> limit_ps(const std::optional<Picoseconds>& time,
                               const std::optional<UnitIntervals>& bits, GigabitsPerSecond rate) {
    if (time) return time->value();
    if (bits) return bits->value() * 1000.0 / rate.value();
    return std::nullopt;
}

PairDelay pair_delay(const Design& design, RibbonLines& ribbons, const PairWay& way) {
    const Carry& carry = design.carries[way.carry];
    const Interface& near = *design.interface_of(design.port(carry.from));
    WayDelay delay = delay_of(design, ribbons, way);
    const Mark at =
        delay.plus.contacts.empty() ? carry.at : design.contact(delay.plus.contacts.front()).at;
    return {near.pairs[way.pair].name,
            way.carry,
            delay.plus.delay,
            delay.minus.delay,
            delay.plus.boards != delay.minus.boards,
            std::move(delay.plus.boards),
            std::move(delay.plus.contacts),
            at};
}

class SkewCheck {
public:
    SkewCheck(const Design& design, const Wiring& wiring, LineMemory& memory)
        : design_(design), ways_(pair_ways(design, wiring)), ribbons_(design, wiring, memory) {}

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
        const std::vector<PairDelay> pairs = delays_of(c);
        for (const PairDelay& pair : pairs) check_pair(pair, *limit, *carry.rate);
        check_between(c, pairs, *limit, *carry.rate);
    }

    std::vector<PairDelay> delays_of(std::size_t c) {
        const auto end = std::ranges::upper_bound(ways_, c, {}, &PairWay::carry);
        std::vector<PairDelay> delays;
        for (auto way = std::ranges::lower_bound(ways_, c, {}, &PairWay::carry); way != end; ++way)
            delays.push_back(pair_delay(design_, ribbons_, *way));
        return delays;
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

    void check_between(std::size_t c, const std::vector<PairDelay>& pairs, const Limit& limit,
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
    static std::set<std::string> best_known(const std::vector<PairDelay>& pairs) {
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
    std::vector<PairWay> ways_;  ///< in order of their carries
    RibbonLines ribbons_;
    Findings findings_;
};

}  // namespace

std::vector<PairDelay> pair_delays(const Design& design, const Wiring& wiring, LineMemory& memory) {
    RibbonLines ribbons(design, wiring, memory);
    std::vector<PairDelay> delays;
    for (const PairWay& way : pair_ways(design, wiring)) {
        delays.push_back(pair_delay(design, ribbons, way));
    }
    return delays;
}

Findings check_lengths(const Design& design, const Wiring& wiring, LineMemory& memory) {
    return SkewCheck(design, wiring, memory).find();
}

}  // namespace pinfold
