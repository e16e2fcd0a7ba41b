#include "check/exchanged_parts.hpp"

#include <algorithm>
#include <set>

namespace pinfold {
namespace {

using Two = std::pair<std::size_t, std::size_t>;
using Places = std::vector<std::size_t>;

std::vector<PortMatch> exchanged(std::vector<PortMatch> ports, const Two& two) {
    std::swap(ports[two.first].reference, ports[two.second].reference);
    return ports;
}

/// Ports that have anything wrong with them.
std::set<std::size_t> bad_ports(const PadReading& reading) {
    std::set<std::size_t> bad;
    for (const auto& [port, pads] : reading.laid.missing) bad.insert(port);
    for (const ExtraPad& extra : reading.laid.extra) bad.insert(extra.port);
    for (const Slip& slip : reading.diagnosis.slips) bad.insert(slip.port);
    for (const PadCause& cause : reading.diagnosis.causes) {
        for (const auto* pads : {&cause.pads, &cause.beside}) {
            for (const std::size_t pad : *pads) bad.insert(reading.laid.pads[pad].port);
        }
    }
    return bad;
}

std::vector<Places> pads_by_port(const std::vector<ComparedPad>& pads, std::size_t ports) {
    std::vector<Places> by_port(ports);
    for (std::size_t p = 0; p < pads.size(); ++p) by_port[pads[p].port].push_back(p);
    return by_port;
}

/// Each pad of one port with the pad of the other that bears its label.
PadShifts shifts_between(const PadTable& table, const std::vector<ComparedPad>& pads,
                         const Places& of_one, std::size_t other) {
    PadShifts shifts;
    for (const std::size_t pad : of_one) {
        shifts.emplace_back(pad, table.find(other, pads[pad].in_board->pad));
    }
    return shifts;
}

long missing_pads(const LaidPads& laid, std::size_t port) {
    const auto found = laid.missing.find(port);
    return found == laid.missing.end() ? 0 : std::ssize(found->second);
}

/// The exchanges that fit better than what is given, the best first; a pad whose label its part
/// lacks counts against either.
std::vector<Two> better_exchanges(const PadTable& table, const LaidPads& laid, std::size_t ports,
                                  const std::set<std::size_t>& bad) {
    const std::vector<ComparedPad>& pads = laid.pads;
    Tally tally = tally_of(pads);
    const std::vector<Places> by_port = pads_by_port(pads, ports);
    std::vector<std::pair<long, Two>> better;
    for (auto one = bad.begin(); one != bad.end(); ++one) {
        for (auto other = std::next(one); other != bad.end(); ++other) {
            PadShifts shifts = shifts_between(table, pads, by_port[*one], *other);
            const PadShifts back = shifts_between(table, pads, by_port[*other], *one);
            shifts.insert(shifts.end(), back.begin(), back.end());
            Places out = by_port[*one];
            out.insert(out.end(), by_port[*other].begin(), by_port[*other].end());
            const long given = tally.cost() + missing_pads(laid, *one) + missing_pads(laid, *other);
            const auto lost = std::ranges::count(shifts, no_net, &PadShifts::value_type::second);
            const long cost =
                lost + SlipTrial(pads, std::move(out), tally).cost_without(shifts, given);
            if (cost < given) better.push_back({cost - given, {*one, *other}});
        }
    }
    std::ranges::sort(better);
    std::vector<Two> best;
    for (const auto& [cost, two] : better) best.push_back(two);
    return best;
}

}  // namespace

std::size_t PadReading::count() const {
    std::set<std::size_t> parts;
    for (const ExtraPad& extra : laid.extra) parts.insert(extra.port);
    return diagnosis.slips.size() + diagnosis.causes.size() + laid.missing.size() + parts.size();
}

PadReading read_pads(const PadTable& table, const std::vector<PortMatch>& ports) {
    LaidPads laid = table.lay(ports);
    PadDiagnosis diagnosis = diagnose_pads(laid.pads, ports.size());
    return {std::move(laid), std::move(diagnosis)};
}

std::optional<Two> exchange_parts(const PadTable& table, std::vector<PortMatch>& ports,
                                  PadReading& reading) {
    constexpr std::size_t most_ports = 12, most_tried = 3;
    std::set<std::size_t> bad = bad_ports(reading);
    std::erase_if(bad, [&](std::size_t port) { return ports[port].reference.empty(); });
    if (bad.size() > most_ports) return std::nullopt;
    std::vector<Two> exchanges = better_exchanges(table, reading.laid, ports.size(), bad);
    if (exchanges.size() > most_tried) exchanges.resize(most_tried);
    std::optional<Two> found;
    for (const Two& two : exchanges) {
        PadReading other = read_pads(table, exchanged(ports, two));
        if (other.count() + 1 >= reading.count() + (found ? 1 : 0)) continue;
        found = two;
        reading = std::move(other);
    }
    if (found) ports = exchanged(std::move(ports), *found);
    return found;
}

}  // namespace pinfold
