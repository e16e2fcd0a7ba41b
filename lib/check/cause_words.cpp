#include "check/cause_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <tuple>

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// A pair of an interface.
using PairPlace = std::pair<std::string_view, std::size_t>;

/// The pair whose half a pad's net is, and which half.
struct Half {
    PairPlace pair;
    bool plus = false;
};

std::optional<Half> half_of(const PadWords& words, std::size_t pad) {
    const Net* net = words.board_net(pad);
    if (!net || !net->signal) return std::nullopt;
    const Interface& interface = words.compared().design.interfaces.at(net->interface);
    for (std::size_t p = 0; p < interface.pairs.size(); ++p) {
        const Pair& pair = interface.pairs[p];
        if (pair.plus == *net->signal) return Half{{net->interface, p}, true};
        if (pair.minus == *net->signal) return Half{{net->interface, p}, false};
    }
    return std::nullopt;
}

bool is_one_pair(const PadWords& words, std::size_t a, std::size_t b) {
    const auto one = half_of(words, a);
    const auto other = half_of(words, b);
    return one && other && one->pair == other->pair && one->plus != other->plus;
}

bool is_plain_exchange(const PadCause& cause) {
    return cause.kind == PadCause::Kind::exchanged && cause.pads.size() == 2;
}

/// The two pairs whose halves a plain exchange is between, and which halves: what another exchange
/// must have, with the other halves, to be the same mistake.
using TwoHalves = std::tuple<PairPlace, bool, PairPlace, bool>;

std::optional<TwoHalves> halves_of(const PadWords& words, const PadCause& cause) {
    if (!is_plain_exchange(cause)) return std::nullopt;
    auto one = half_of(words, cause.pads[0]);
    auto other = half_of(words, cause.pads[1]);
    if (!one || !other) return std::nullopt;
    if (other->pair < one->pair) std::swap(one, other);
    return TwoHalves{one->pair, one->plus, other->pair, other->plus};
}

/// Two exchanges that move both halves of one pair to where another pair belongs become one.
std::vector<PadCause> merged(const PadWords& words, std::vector<PadCause> causes) {
    std::map<TwoHalves, std::vector<std::size_t>> waiting;  // places in the list that is made
    std::vector<PadCause> list;
    for (PadCause& cause : causes) {
        const auto halves = halves_of(words, cause);
        if (halves) {
            const auto& [one, one_plus, other, other_plus] = *halves;
            const auto twin = waiting.find({one, !one_plus, other, !other_plus});
            if (one != other && twin != waiting.end() && !twin->second.empty()) {
                PadCause& first = list[twin->second.front()];
                first.kind = PadCause::Kind::pairs_exchanged;
                first.pads.insert(first.pads.end(), cause.pads.begin(), cause.pads.end());
                twin->second.erase(twin->second.begin());
                continue;
            }
            waiting[*halves].push_back(list.size());
        }
        list.push_back(std::move(cause));
    }
    return list;
}

Finding told_open(const PadWords& words, const PadCause& cause) {
    return words.about_pads(
        "drawn-open",
        fmt::format("{} is open: {} {} not joined to {}", words.net_of(cause.pads[0]),
                    words.names_of(cause.pads), cause.pads.size() == 1 ? "is" : "are",
                    words.names_of(cause.beside)),
        cause.pads);
}

/// Where a pad lies, by the net of a pad that belongs there.
std::string net_beside(const PadWords& words, const PadCause& cause) {
    return cause.beside.empty() ? "another net" : words.net_of(cause.beside[0]);
}

Finding told_short(const PadWords& words, const PadCause& cause) {
    Places both = cause.pads;
    if (!cause.beside.empty()) both.push_back(cause.beside[0]);
    return words.about_pads("drawn-short",
                            fmt::format("{} and {} are joined: {}", words.net_of(cause.pads[0]),
                                        net_beside(words, cause), words.names_of(both)),
                            both);
}

Finding told_misplaced(const PadWords& words, const PadCause& cause) {
    return words.about_pads(
        "drawn-misplaced",
        fmt::format("{} lies on {} but belongs on {}", words.name_of(cause.pads[0]),
                    net_beside(words, cause), words.net_of(cause.pads[0])),
        cause.pads);
}

Finding told_pairs(const PadWords& words, const Places& pads) {
    return words.about_pads(
        "drawn-pairs-exchanged",
        fmt::format("two pairs have changed places: {} with {}, {} with {}", words.name_of(pads[0]),
                    words.name_of(pads[1]), words.name_of(pads[2]), words.name_of(pads[3])),
        pads);
}

Finding told_exchange(const PadWords& words, const Places& pads) {
    if (pads.size() > 2) {
        return words.about_pads(
            "drawn-pads-exchanged",
            fmt::format("{} have changed places in a ring", words.names_of(pads)), pads);
    }
    const std::string one = words.name_of(pads[0]), other = words.name_of(pads[1]);
    if (is_one_pair(words, pads[0], pads[1])) {
        return words.about_pads(
            "drawn-pair-swapped",
            fmt::format("the halves of a pair are exchanged: {} and {}", one, other), pads);
    }
    return words.about_pads("drawn-pads-exchanged",
                            fmt::format("{} and {} are on each other's nets", one, other), pads);
}

Finding told(const PadWords& words, const PadCause& cause) {
    switch (cause.kind) {
        case PadCause::Kind::open: return told_open(words, cause);
        case PadCause::Kind::shorted: return told_short(words, cause);
        case PadCause::Kind::misplaced: return told_misplaced(words, cause);
        case PadCause::Kind::pairs_exchanged: return told_pairs(words, cause.pads);
        case PadCause::Kind::exchanged: break;
    }
    return told_exchange(words, cause.pads);
}

Finding told(const PadWords& words, const Slip& slip) {
    Finding made = words.about_port(
        slip.rule, fmt::format("{}: {}", words.name_of_port(slip.port), slip.how), slip.port);
    for (const auto& [pad, place] : slip.moves) {
        const Netlist::Node* drawn = words.compared().pads[pad].in_netlist;
        if (place == no_net || place == pad || !drawn || !drawn->at.source) continue;
        made.notes.push_back({drawn->at, fmt::format("{} lies where {} belongs, for one",
                                                     words.name_of(pad), words.name_of(place))});
        break;
    }
    return made;
}

}  // namespace

Findings told(const PadWords& words, PadDiagnosis diagnosis) {
    Findings findings;
    for (const Slip& slip : diagnosis.slips) findings.push_back(told(words, slip));
    for (const PadCause& cause : merged(words, std::move(diagnosis.causes))) {
        findings.push_back(told(words, cause));
    }
    return findings;
}

}  // namespace pinfold
