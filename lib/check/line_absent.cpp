#include "check/line_absent.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>
#include <set>

namespace pinfold {
namespace {

/// A promised pair: the promise, and the pair in the interface of its near port.
using Promised = std::pair<std::size_t, std::size_t>;

/// The fast pairs that are promised, and whether both halves arrive.
std::map<Promised, bool> promised_pairs(const Design& design, const Wiring& wiring) {
    std::map<Promised, bool> pairs;
    for (const Pass& pass : wiring.passes()) {
        if (pass.role != Role::pair_half) continue;
        const Interface& near = *design.interface_of(design.port(pass.from.port));
        const std::size_t pair = *near.signals[pass.signal].pair;
        if (near.pairs[pair].kind == PairKind::slow) continue;
        bool& arrives = pairs.try_emplace({pass.carry, pair}, true).first->second;
        arrives = arrives && pass.state == State::good;
    }
    return pairs;
}

/// What a promise has no line of.
struct Absent {
    std::vector<std::string> broken, elsewhere;
};

std::map<std::size_t, Absent> absent_by_promise(const Design& design, const Wiring& wiring,
                                                const std::vector<LineGroup>& groups) {
    std::set<Promised> measured;
    for (const LineGroup& group : groups) {
        for (const PairLine& line : group.pairs) measured.insert({group.carry, line.pair});
    }
    std::map<std::size_t, Absent> absent;
    for (const auto& [promised, arrives] : promised_pairs(design, wiring)) {
        if (measured.contains(promised)) continue;
        const PortRef near = design.carries[promised.first].from;
        const std::string& name =
            design.interface_of(design.port(near))->pairs[promised.second].name;
        Absent& of_promise = absent[promised.first];
        (arrives ? of_promise.elsewhere : of_promise.broken).push_back(name);
    }
    return absent;
}

}  // namespace

Findings absent_lines(const Design& design, const Wiring& wiring,
                      const std::vector<LineGroup>& groups) {
    Findings findings;
    for (const auto& [carry, absent] : absent_by_promise(design, wiring, groups)) {
        const Carry& promise = design.carries[carry];
        const auto tell = [&](Severity severity, const char* rule, std::vector<std::string> pairs,
                              const char* one, const char* many, const char* text) {
            if (pairs.empty()) return;
            const std::string told =
                fmt::format("of {}, {} {} {}", promise.name, fmt::join(pairs, ", "),
                            pairs.size() == 1 ? one : many, text);
            pairs.push_back(promise.name);
            findings.push_back({severity, rule, told, promise.at, {}, std::move(pairs), {}});
        };
        tell(Severity::error, "line-broken", absent.broken, "does", "do",
             "not arrive, and nothing is measured of what is broken; run 'pinfold check'");
        tell(Severity::note, "line-absent", absent.elsewhere, "runs", "run",
             "over no ribbon with a ground in it, or over leads: there is no line to measure");
    }
    return findings;
}

}  // namespace pinfold
