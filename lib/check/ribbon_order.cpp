#include "check/ribbon_order.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "design/promise.hpp"

namespace pinfold {
namespace {

/// A pair as it lies in the ribbon.
struct LaidPair {
    std::string name;
    PairKind kind;
    bool has_ground;      ///< its interface has grounds to guard it with
    const Occupant* low;  ///< the half on the lower conductor
    const Occupant* high;
};

class OrderCheck {
public:
    OrderCheck(const Design& design, const Wiring& wiring, std::size_t ribbon)
        : design_(design),
          wiring_(wiring),
          ribbon_(ribbon),
          row_(occupants(design, wiring, ribbon)) {}

    Findings find() {
        const std::vector<LaidPair> pairs = laid_pairs();
        for (const LaidPair& pair : pairs) {
            if (is_split(pair)) {
                if (arrives(*pair.low) == arrives(*pair.high)) add_split(pair);
            } else if (pair.kind != PairKind::slow) {
                check_sides(pair);
            }
        }
        check_grounds(pairs);
        for (const Occupant& occupant : row_) check_guard_ends(occupant);
        add_hazard("in reversed", 0, {});
        add_hazard("one place off", rows(), -rows());
        return std::move(findings_);
    }

private:
    /// One place off along a receptacle of two rows is two conductors off.
    int rows() const {
        const RibbonEnds& ends = wiring_.ends_of(ribbon_);
        if (!ends.b) return 1;
        const Port& port = design_.port(design_.seats[*ends.b].port);
        return port.ribbon ? design_.receptacle_types.at(port.ribbon->receptacle).rows : 1;
    }

    std::string place(const Occupant& occupant) const {
        return name_of(design_, ribbon_, occupant.conductor);
    }

    Finding& add(Severity severity, const char* rule, std::string text, const Mark& at) {
        findings_.push_back(
            {severity, rule, std::move(text), at, {}, {design_.ribbons[ribbon_].name}, {}});
        return findings_.back();
    }

    /// Pairs with both halves in this ribbon, in order of their lower conductor.
    std::vector<LaidPair> laid_pairs() const {
        std::map<std::pair<std::size_t, std::size_t>, const Occupant*> first;
        std::vector<LaidPair> pairs;
        for (const Occupant& occupant : row_) {
            if (occupant.kind != Occupant::Kind::pair_half || !occupant.pair) continue;
            const auto key = std::pair{occupant.wire->carry, *occupant.pair};
            const auto [half, is_first] = first.try_emplace(key, &occupant);
            if (is_first || half->second->wire->signal == occupant.wire->signal) continue;
            const Pair& pair = pair_of(occupant);
            pairs.push_back({pair.name, pair.kind, has_ground(occupant), half->second, &occupant});
        }
        return pairs;
    }

    /// Ethernet on the cable side has no ground; guards cannot be asked of it.
    bool has_ground(const Occupant& occupant) const {
        const Carry& carry = design_.carries[occupant.wire->carry];
        const Interface* interface = design_.interface_of(design_.port(carry.from));
        return std::ranges::any_of(interface->signals,
                                   [](const Signal& signal) { return is_ground(signal.role); });
    }

    const Pair& pair_of(const Occupant& occupant) const {
        const Carry& carry = design_.carries[occupant.wire->carry];
        return design_.interface_of(design_.port(carry.from))->pairs[*occupant.pair];
    }

    static bool is_split(const LaidPair& pair) {
        return pair.high->conductor.number() - pair.low->conductor.number() != 1;
    }

    /// A half that alone does not arrive is on the wrong conductor; its own finding says so, and
    /// where the pair lies is judged once it arrives.
    bool arrives(const Occupant& half) const {
        return std::ranges::any_of(wiring_.passes_of(half.wire->carry), [&](const Pass& pass) {
            return pass.signal == half.wire->signal && pass.state == State::good;
        });
    }

    void add_split(const LaidPair& pair) {
        const Severity severity = pair.kind == PairKind::slow ? Severity::warning : Severity::error;
        Finding& finding =
            add(severity, "pair-split",
                fmt::format("pair {} is split: its halves lie on conductors {} and {} of {}",
                            pair.name, pair.low->conductor.number(), pair.high->conductor.number(),
                            design_.ribbons[ribbon_].name),
                pair.low->at);
        finding.notes.push_back({pair.high->at, "the other half is here"});
        finding.places.insert(finding.places.end(), {place(*pair.low), place(*pair.high), pair.name,
                                                     design_.carries[pair.low->wire->carry].name});
    }

    /// The neighbour on one side; nothing at the ribbon's edge.
    const Occupant* beside(const LaidPair& pair, int side) const {
        const Occupant* half = side < 0 ? pair.low : pair.high;
        const int number = half->conductor.number() + side;
        if (number < 1 || number > static_cast<int>(row_.size())) return nullptr;
        return &row_[static_cast<std::size_t>(number - 1)];
    }

    void check_sides(const LaidPair& pair) {
        std::vector<std::string> bare;
        for (const int side : {-1, 1}) {
            const Occupant* neighbour = beside(pair, side);
            if (!neighbour) {
                bare.emplace_back("the ribbon's edge");
            } else if (neighbour->kind == Occupant::Kind::supply) {
                add_beside("supply-beside-pair", pair, *neighbour);
            } else if (neighbour->clock) {
                add_beside("clock-beside-pair", pair, *neighbour);
            } else if (neighbour->kind != Occupant::Kind::ground) {
                bare.push_back(
                    fmt::format("conductor {} ({})", neighbour->conductor.number(),
                                neighbour->name.empty() ? std::string("open") : neighbour->name));
            }
        }
        if (bare.empty()) return;
        Finding& finding = add(
            Severity::warning, "pair-unguarded",
            fmt::format("pair {} on conductors {} and {} of {} has no guard on {}: {}", pair.name,
                        pair.low->conductor.number(), pair.high->conductor.number(),
                        design_.ribbons[ribbon_].name,
                        bare.size() == 2 ? "either side" : "one side", fmt::join(bare, " and ")),
            pair.low->at);
        finding.places.insert(finding.places.end(),
                              {place(*pair.low), place(*pair.high), pair.name});
    }

    void add_beside(const char* rule, const LaidPair& pair, const Occupant& neighbour) {
        Finding& finding =
            add(Severity::warning, rule,
                fmt::format("{} on conductor {} lies beside pair {} on conductors {} and {} of {}",
                            neighbour.name, neighbour.conductor.number(), pair.name,
                            pair.low->conductor.number(), pair.high->conductor.number(),
                            design_.ribbons[ribbon_].name),
                neighbour.at);
        finding.places.insert(finding.places.end(), {place(neighbour), pair.name});
    }

    void check_grounds(const std::vector<LaidPair>& pairs) {
        const auto grounds = std::ranges::count(row_, Occupant::Kind::ground, &Occupant::kind);
        const auto fast = std::ranges::count_if(pairs, [](const LaidPair& pair) {
            return pair.kind != PairKind::slow && pair.has_ground;
        });
        if (grounds >= fast) return;
        const Ribbon& ribbon = design_.ribbons[ribbon_];
        add(grounds == 0 ? Severity::error : Severity::warning, "grounds-few",
            fmt::format("{} carries {} fast pairs and {} ground conductors; a ground for each "
                        "pair and one more lets every pair lie between two",
                        ribbon.name, fast, grounds),
            ribbon.at);
    }

    /// A ground conductor whose contact at one end is wired to nothing.
    void check_guard_ends(const Occupant& occupant) {
        if (occupant.kind != Occupant::Kind::ground) return;
        for (const End end : {End::a, End::b}) {
            const auto contact = wiring_.contact_of(design_, ribbon_, end, occupant.conductor);
            if (!contact) continue;
            const PortContact& there = design_.contact(*contact);
            if (there.net || !there.name.empty()) continue;
            Finding& finding =
                add(Severity::warning, "guard-one-end",
                    fmt::format("ground conductor {} of {} is wired to nothing at {}",
                                occupant.conductor.number(), design_.ribbons[ribbon_].name,
                                name_of(design_, *contact)),
                    there.at);
            finding.places.push_back(place(occupant));
        }
    }

    void add_hazard(std::string_view how, int shift, std::optional<int> other_shift) {
        std::vector<Encounter> met = harmful_encounters(design_, row_, shift);
        if (other_shift) {
            const std::vector<Encounter> more = harmful_encounters(design_, row_, *other_shift);
            met.insert(met.end(), more.begin(), more.end());
        }
        if (met.empty()) return;
        std::vector<std::string> told;
        for (const Encounter& encounter : met) {
            told.push_back(fmt::format("{} (conductor {}) would meet {} (conductor {})",
                                       encounter.supply.name, encounter.supply.conductor.number(),
                                       encounter.met.name, encounter.met.conductor.number()));
        }
        Finding& finding = add(Severity::warning, "mirror-hazard",
                               fmt::format("were {} put {}: {}", design_.ribbons[ribbon_].name, how,
                                           fmt::join(told, "; ")),
                               met.front().supply.at);
        for (const Encounter& encounter : met) finding.places.push_back(place(encounter.supply));
    }

    const Design& design_;
    const Wiring& wiring_;
    std::size_t ribbon_;
    std::vector<Occupant> row_;
    Findings findings_;
};

/// The highest voltage a supply may have: what its promise states, or its interface allows.
std::optional<Volts> highest_voltage(const Design& design, const Occupant& supply) {
    if (!supply.wire) return supply.highest;
    const Carry& carry = design.carries[supply.wire->carry];
    return carry.voltage ? carry.voltage : supply.highest;
}

bool is_same_supply(const Occupant& one, const Occupant& other) {
    if (one.wire && other.wire) {
        return one.wire->carry == other.wire->carry && one.wire->signal == other.wire->signal;
    }
    return !one.wire && !other.wire && one.kind == other.kind && one.name == other.name;
}

bool is_harmed(const Occupant& met, const Occupant& supply, std::optional<Volts> voltage) {
    if (met.kind == Occupant::Kind::open || met.piece == supply.piece) return false;
    if (is_same_supply(met, supply)) return false;
    return !(met.withstands && voltage && *met.withstands >= *voltage);
}

}  // namespace

std::vector<Encounter> harmful_encounters(const Design& design, const std::vector<Occupant>& row,
                                          int shift) {
    std::vector<Encounter> met;
    const int count = static_cast<int>(row.size());
    for (const Occupant& occupant : row) {
        if (occupant.kind != Occupant::Kind::supply) continue;
        const int number = occupant.conductor.number();
        const int other = shift == 0 ? count + 1 - number : number + shift;
        if (other < 1 || other > count) continue;
        const Occupant& there = row[static_cast<std::size_t>(other - 1)];
        if (is_harmed(there, occupant, highest_voltage(design, occupant))) {
            met.push_back({occupant, there});
        }
    }
    return met;
}

Findings check_ribbon_order(const Design& design, const Wiring& wiring, std::size_t ribbon) {
    return OrderCheck(design, wiring, ribbon).find();
}

}  // namespace pinfold
