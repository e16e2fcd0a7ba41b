#include "check/slips.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <unordered_set>

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// Whose place contact `i` of `count` was given; at or past `count` where it fell off.
using Reorder = std::size_t (*)(std::size_t i, std::size_t count);

struct Known {
    const char* rule;
    const char* how;
    Reorder order;
};

constexpr std::size_t away = no_net;

const std::vector<Known>& known_orders() {
    static const std::vector<Known> known{
        {"drawn-mirrored", "its contacts are numbered from the other end",
         [](std::size_t i, std::size_t n) { return n - 1 - i; }},
        {"drawn-rows-exchanged", "its odd and even contacts have changed places",
         [](std::size_t i, std::size_t n) { return (i ^ 1U) < n ? i ^ 1U : i; }},
        {"drawn-rows-exchanged", "the first and second half of its contacts have changed places",
         [](std::size_t i, std::size_t n) { return n % 2 == 0 ? (i + n / 2) % n : i; }},
        {"drawn-rows-numbered", "its contacts are numbered row by row, not to and fro",
         [](std::size_t i, std::size_t n) {
             return n % 2 != 0 ? i : i % 2 == 0 ? i / 2 : n / 2 + i / 2;
         }},
        {"drawn-rows-numbered", "its contacts are numbered to and fro, not row by row",
         [](std::size_t i, std::size_t n) {
             return n % 2 != 0 ? i : i < n / 2 ? 2 * i : 2 * (i - n / 2) + 1;
         }},
        {"drawn-shifted", "each contact lies where the next one belongs",
         [](std::size_t i, std::size_t n) { return i + 1 < n ? i + 1 : away; }},
        {"drawn-shifted", "each contact lies where the one before belongs",
         [](std::size_t i, std::size_t) { return i > 0 ? i - 1 : away; }},
        {"drawn-shifted", "each contact lies where the second next belongs",
         [](std::size_t i, std::size_t n) { return i + 2 < n ? i + 2 : away; }},
        {"drawn-shifted", "each contact lies where the second before belongs",
         [](std::size_t i, std::size_t) { return i > 1 ? i - 2 : away; }},
    };
    return known;
}

Slip slip_of(const Known& known, std::size_t port, const Places& contacts) {
    Slip slip{known.rule, port, known.how, {}};
    for (std::size_t i = 0; i < contacts.size(); ++i) {
        const std::size_t place = known.order(i, contacts.size());
        slip.moves.emplace_back(contacts[i], place < contacts.size() ? contacts[place] : away);
    }
    return slip;
}

std::vector<Places> contacts_by_port(const std::vector<ComparedPad>& pads, std::size_t ports) {
    std::vector<Places> contacts(ports);
    for (std::size_t p = 0; p < pads.size(); ++p) {
        if (!pads[p].is_shield) contacts[pads[p].port].push_back(p);
    }
    return contacts;
}

/// The slip whose undoing leaves the least wrong; none if nothing gets much better.
std::optional<Slip> best_slip(const std::vector<ComparedPad>& pads, std::size_t ports,
                              const std::set<std::size_t>& bad) {
    Tally tally = tally_of(pads);
    long least = tally.cost();
    std::optional<Slip> best;
    const std::vector<Places> contacts = contacts_by_port(pads, ports);
    for (const std::size_t port : bad) {
        SlipTrial trial(pads, contacts[port], tally);
        for (const Known& known : known_orders()) {
            Slip slip = slip_of(known, port, contacts[port]);
            const long cost = trial.cost_without(slip.moves, least);
            if (cost >= least) continue;
            least = cost;
            best = std::move(slip);
        }
    }
    return best;
}

/// The pads as they would lie without a slip.
std::vector<ComparedPad> without(const Slip& slip, std::vector<ComparedPad> pads) {
    const std::vector<std::size_t> nets = nets_without(slip.moves, pads);
    for (std::size_t m = 0; m < nets.size(); ++m) pads[slip.moves[m].first].drawn = nets[m];
    return pads;
}

/// The ports on the nets that the causes tell of. Where two pads have a net to themselves, either
/// may be the one out of place.
std::set<std::size_t> bad_ports(const std::vector<PadCause>& causes,
                                const std::vector<ComparedPad>& pads) {
    std::unordered_set<std::size_t> meant, drawn;
    for (const PadCause& cause : causes) {
        for (const std::size_t pad : cause.pads) {
            meant.insert(pads[pad].meant);
            drawn.insert(pads[pad].drawn);
        }
    }
    std::set<std::size_t> bad;
    for (const ComparedPad& pad : pads) {
        const bool is_seen = !bad.empty() && *bad.rbegin() == pad.port;  // they lie by port
        if (!is_seen && (meant.contains(pad.meant) || drawn.contains(pad.drawn))) {
            bad.insert(pad.port);
        }
    }
    return bad;
}

/// With the bad ports all numbered from the other end, as when a board was drawn from its other
/// side: undone one by one, that gets worse before it gets better.
PadDiagnosis all_mirrored(const std::vector<ComparedPad>& pads, std::size_t ports,
                          const std::set<std::size_t>& bad) {
    const std::vector<Places> contacts = contacts_by_port(pads, ports);
    PadDiagnosis mirrored;
    std::vector<ComparedPad> undone = pads;
    for (const std::size_t port : bad) {
        mirrored.slips.push_back(slip_of(known_orders().front(), port, contacts[port]));
        undone = without(mirrored.slips.back(), std::move(undone));
    }
    mirrored.causes = pad_causes(undone);
    return mirrored;
}

}  // namespace

PadDiagnosis diagnose_pads(const std::vector<ComparedPad>& pads, std::size_t ports) {
    constexpr std::size_t most_slips = 8;
    PadDiagnosis best{{}, pad_causes(pads)};
    const std::set<std::size_t> bad = bad_ports(best.causes, pads);
    std::set<std::size_t> bad_still = bad;
    std::vector<ComparedPad> rest = pads;
    while (best.causes.size() > 1 && best.slips.size() < most_slips) {
        const std::optional<Slip> slip = best_slip(rest, ports, bad_still);
        if (!slip) break;
        std::vector<ComparedPad> undone = without(*slip, rest);
        PadDiagnosis next{best.slips, pad_causes(undone)};
        next.slips.push_back(*slip);
        // What fell off the end is not explained, only out of sight.
        const auto lost = std::ranges::count(slip->moves, away, &PadShifts::value_type::second);
        if (next.count() + static_cast<std::size_t>(lost) >= best.count()) break;
        best = std::move(next);
        rest = std::move(undone);
        bad_still = bad_ports(best.causes, rest);
    }
    if (bad.size() < 2 || bad.size() > most_slips || best.count() <= bad.size()) return best;
    PadDiagnosis mirrored = all_mirrored(pads, ports, bad);
    return mirrored.count() < best.count() ? mirrored : best;
}

}  // namespace pinfold
