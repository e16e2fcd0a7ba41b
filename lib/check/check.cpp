#include "check/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/spelling.hpp"
#include "check/carries.hpp"
#include "check/causes.hpp"
#include "check/edits.hpp"
#include "check/estimates.hpp"
#include "check/givers.hpp"
#include "check/hypothesis.hpp"
#include "check/judge_line.hpp"
#include "check/lengths.hpp"
#include "check/ratings.hpp"
#include "check/ribbon_order.hpp"
#include "check/rules.hpp"
#include "check/seats.hpp"
#include "check/undecided.hpp"

namespace pinfold {
namespace {

Findings check_every_ribbon(const Design& design, const Wiring& wiring) {
    Findings findings;
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        Findings of_ribbon = check_ribbon_order(design, wiring, r);
        std::ranges::move(of_ribbon, std::back_inserter(findings));
    }
    return findings;
}

/// One `pinmap-doubtful` note for each connector in use whose source says `from memory`.
Findings check_sources(const Design& design, const Wiring& /*wiring*/) {
    std::set<std::string> used;
    Findings findings;
    for (const Board& board : design.boards) {
        for (const Port& port : board.ports) {
            if (port.connector.empty() || !used.insert(port.connector).second) continue;
            const Connector& connector = design.connectors.at(port.connector);
            if (!connector.source.starts_with("from memory")) continue;
            findings.push_back(
                {Severity::note,
                 "pinmap-doubtful",
                 fmt::format("the contacts of {} are marked: {}", connector.id, connector.source),
                 port.at,
                 {},
                 {connector.id},
                 {}});
        }
    }
    return findings;
}

/// The checks, in the order a person wants to read what they find.
using Check = Findings (*)(const Design&, const Wiring&);
constexpr Check checks_of_wiring[] = {check_fits,        check_touch,  check_carries,
                                      check_promises,    check_givers, check_supplies,
                                      check_every_ribbon};
using LineCheck = Findings (*)(const Design&, const Wiring&, LineMemory&);
constexpr LineCheck checks_of_lines[] = {check_lengths, check_lines, check_estimated_lengths};
constexpr Check checks_of_feeds[] = {check_feeds, check_sources};

/// The pairs of which a half does not arrive, each with its promise.
std::set<std::pair<std::string, std::string>> failing_pairs(const Design& design,
                                                            const Wiring& wiring) {
    std::set<std::pair<std::string, std::string>> pairs;
    for (const Pass& pass : wiring.passes()) {
        if (pass.role != Role::pair_half || pass.state == State::good) continue;
        const Interface& near = *design.interface_of(design.port(pass.from.port));
        pairs.emplace(design.carries[pass.carry].name,
                      near.pairs[*near.signals[pass.signal].pair].name);
    }
    return pairs;
}

/// What a split pair's line shows: its places name ribbons, pairs and last the promise, and no pair
/// that is not split.
bool follows_from_split(const Design& design, const Finding& finding,
                        const std::set<std::pair<std::string, std::string>>& split) {
    constexpr std::array rules{"impedance-off", "crosstalk-high", "eye-low", "eye-closed"};
    if (std::ranges::find(rules, finding.rule) == rules.end()) return false;
    return std::all_of(finding.places.begin(), finding.places.end() - 1, [&](const auto& place) {
        return split.contains({finding.places.back(), place}) ||
               std::ranges::find(design.ribbons, place, &Ribbon::name) != design.ribbons.end();
    });
}

/// What follows from another finding is not told beside it: a guard that meets an open contact
/// because its ribbon's order is wrong, a pair that lies split because a half is on a wrong
/// contact, what the line does to a split pair.
void drop_consequences(const Design& design, const Wiring& wiring, Findings& findings) {
    std::set<std::string> displaced;
    std::set<std::pair<std::string, std::string>> split;
    for (const Finding& finding : findings) {
        const std::vector<std::string>& places = finding.places;
        if (finding.rule == "order-mirrored" || finding.rule == "order-shifted") {
            displaced.insert(places.front());
        }
        if (finding.rule == "pair-split") split.emplace(places.back(), places[places.size() - 2]);
    }
    const auto failing = failing_pairs(design, wiring);
    std::erase_if(findings, [&](const Finding& finding) {
        if (finding.rule == "guard-one-end") return displaced.contains(finding.places.front());
        if (follows_from_split(design, finding, split)) return true;
        if (finding.rule != "pair-split") return false;
        const std::vector<std::string>& places = finding.places;
        return failing.contains({places.back(), places[places.size() - 2]});
    });
}

bool accepts(const Acceptance& acceptance, const Finding& finding) {
    if (acceptance.rule != finding.rule) return false;
    if (acceptance.where.empty()) return finding.severity != Severity::error;
    return std::ranges::find(finding.places, acceptance.where) != finding.places.end();
}

Finding unused(const Acceptance& acceptance) {
    std::vector<std::string> known;
    for (const Rule& rule : all_rules()) known.emplace_back(rule.name);
    const bool is_rule = find_rule(acceptance.rule) != nullptr;
    const std::string reason =
        is_rule
            ? fmt::format("nothing was found by rule '{}'{}", acceptance.rule,
                          acceptance.where.empty()
                              ? std::string{"; an error is accepted at a place only, say 'where'"}
                              : fmt::format(" at '{}'", acceptance.where))
            : fmt::format("there is no rule '{}'{}", acceptance.rule,
                          did_you_mean(acceptance.rule, known));
    return {Severity::warning,
            "acceptance-unused",
            fmt::format("this acceptance accepts nothing: {}", reason),
            acceptance.at,
            {},
            {acceptance.rule},
            {}};
}

/// Turns what the user accepted into notes that carry the reason; an acceptance that accepts
/// nothing is told.
void apply_acceptances(const std::vector<Acceptance>& acceptances, Findings& findings) {
    Findings idle;
    for (const Acceptance& acceptance : acceptances) {
        bool used = false;
        for (Finding& finding : findings) {
            if (!accepts(acceptance, finding)) continue;
            used = true;
            finding.severity = Severity::note;
            finding.text += fmt::format(" (accepted: {})", acceptance.why);
            finding.notes.push_back({acceptance.at, "accepted here"});
            finding.repairs.clear();
        }
        if (!used) idle.push_back(unused(acceptance));
    }
    std::ranges::move(idle, std::back_inserter(findings));
}

/// Gives each `copper-away` its repairs. Where there are some, the wrong order that the same ribbon
/// would give if it touched has the same cause and is not told again.
void add_touch_repairs(const Design& design, const Wiring& wiring, Findings& findings) {
    constexpr std::size_t trials_per_ribbon = 10;
    std::size_t ribbons_left = worthwhile_trials(design) / trials_per_ribbon;
    std::set<std::string> told;
    for (Finding& finding : findings) {
        if (finding.rule != "copper-away" || ribbons_left == 0) continue;
        --ribbons_left;
        const auto ribbon =
            std::ranges::find(design.ribbons, finding.places.front(), &Ribbon::name);
        const auto place = static_cast<std::size_t>(ribbon - design.ribbons.begin());
        finding.repairs = touch_repairs(design, place, wiring.ends_of(place));
        if (!finding.repairs.empty()) told.insert(ribbon->name);
    }
    std::erase_if(findings, [&](const Finding& finding) {
        return finding.rule == "order-mirrored" && told.contains(finding.places.front());
    });
}

/// The row a both-sided receptacle of a ribbon should touch with: the one that leaves the fewest
/// promised signals failing. Says so if the choice matters.
void settle(Design& design, std::size_t ribbon, const RibbonEnds& ends, Findings& findings) {
    const bool at_b =
        design.port(design.seats[*ends.b].port).ribbon->mouth.side == ContactSide::both;
    Seat& seat = design.seats[at_b ? *ends.b : *ends.a];
    std::map<ContactSide, std::size_t> left;
    for (const ContactSide side : {ContactSide::top, ContactSide::bottom}) {
        seat.touches = side;
        left[side] = failing(trace(design)).size();
    }
    const bool top = left[ContactSide::top] <= left[ContactSide::bottom];
    seat.touches = top ? ContactSide::top : ContactSide::bottom;
    const bool matters = left[ContactSide::top] != left[ContactSide::bottom];
    findings.push_back(either_way_up(design, ribbon, ends, matters));
}

/// The ribbons whose order is left to the assembler.
std::vector<std::size_t> open_orders(const Design& design) {
    std::vector<std::size_t> open;
    const std::vector<RibbonEnds> ends = ribbon_ends(design);
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        const std::optional<Seating> seating = seating_of(design, r, ends[r]);
        if (seating && seating->order == Order::either) open.push_back(r);
    }
    return open;
}

/// The design with every order settled that its author left to the assembler; in a design too large
/// to try them, the order stays straight.
Design settled(const Design& written, const std::vector<std::size_t>& open, Findings& findings) {
    Design design = written;
    const std::vector<RibbonEnds> ends = ribbon_ends(design);
    const bool may_try = 2 * open.size() <= worthwhile_trials(design);
    for (const std::size_t r : open) {
        if (may_try) {
            settle(design, r, ends[r], findings);
        } else {
            findings.push_back(either_way_up(design, r, ends[r], true));
        }
    }
    return design;
}

Verdict judged(const Design& design, Findings findings, LineMemory& memory) {
    Verdict verdict{std::move(findings), trace(design)};
    const auto take = [&](Findings found) {
        std::ranges::move(found, std::back_inserter(verdict.findings));
    };
    for (const Check check : checks_of_wiring) take(check(design, verdict.wiring));
    for (const LineCheck check : checks_of_lines) take(check(design, verdict.wiring, memory));
    for (const Check check : checks_of_feeds) take(check(design, verdict.wiring));
    drop_consequences(design, verdict.wiring, verdict.findings);
    add_touch_repairs(design, verdict.wiring, verdict.findings);
    apply_acceptances(design.acceptances, verdict.findings);
    sort_by_severity(verdict.findings);
    return verdict;
}

}  // namespace

Verdict check_design(const Design& written) {
    constexpr double most_work = 3e5;  // of a second or so: 64 conductors, or 37 times 20
    LineMemory memory(most_work);
    return check_design(written, memory);
}

Verdict check_design(const Design& written, LineMemory& memory) {
    if (Findings open_ports = undecided(written); !open_ports.empty()) {
        return {std::move(open_ports), trace(written)};
    }
    const std::vector<std::size_t> open = open_orders(written);
    Findings findings = written.remarks;
    if (open.empty()) return judged(written, std::move(findings), memory);
    const Design design = settled(written, open, findings);
    return judged(design, std::move(findings), memory);
}

}  // namespace pinfold
