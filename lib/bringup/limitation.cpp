#include "bringup/limitation.hpp"

#include <map>

namespace pinfold {
namespace {

const char* why_alike(FaultKind kind) {
    switch (kind) {
        case FaultKind::order:
            return "the order is the same whichever end is wrong; look at the marked edge and "
                   "at the bared copper";
        case FaultKind::shift:
            return "one place up at one end is one place down at the other; look at both ends";
        case FaultKind::open:
            return "a conductor and the contacts at its ends are in one row; take the ribbon "
                   "out and measure it alone";
        case FaultKind::bridge:
            return "two signals joined anywhere are joined everywhere; part the assembly at its "
                   "ribbons and measure each part alone";
        default: return "they join the same contacts; part the assembly and measure each part";
    }
}

const char* why_unseen(FaultKind kind) {
    switch (kind) {
        case FaultKind::open:
        case FaultKind::bridge:
            return "something else joins the same points, as the other grounds of a ribbon do: "
                   "only a milliohm meter with four wires, or a lens, tells";
        default:
            return "every contact is joined to the same ones as in a sound assembly, so nothing "
                   "that is carried comes to harm";
    }
}

}  // namespace

std::vector<Limitation> limitations_of_unseen(const Bench& bench,
                                              const std::vector<std::size_t>& faults) {
    std::map<std::string, Limitation> by_cause;
    for (const std::size_t fault : faults) {
        Limitation& limitation = by_cause[bench.faults[fault].cause];
        if (limitation.places++ == 0) limitation.example = bench.faults[fault].text;
        limitation.why = why_unseen(bench.faults[fault].kind);
    }
    std::vector<Limitation> limitations;
    for (auto& [cause, limitation] : by_cause) limitations.push_back(std::move(limitation));
    return limitations;
}

std::vector<Limitation> limitations_of_alike(const Bench& bench,
                                             const std::vector<std::size_t>& faults) {
    std::map<FaultKind, Limitation> by_kind;
    for (const std::vector<std::size_t>& group : alike(bench, faults)) {
        if (group.size() < 2) continue;
        const FaultKind kind = bench.faults[group.front()].kind;
        Limitation& limitation = by_kind[kind];
        if (limitation.places++ == 0) {
            limitation.example =
                bench.faults[group[0]].text + "; or: " + bench.faults[group[1]].text;
        }
        limitation.why = why_alike(kind);
    }
    std::vector<Limitation> limitations;
    for (auto& [kind, limitation] : by_kind) limitations.push_back(std::move(limitation));
    return limitations;
}

}  // namespace pinfold
