#include <fmt/format.h>

#include <algorithm>

#include "bringup/fault_desk.hpp"

namespace pinfold {
namespace {

/// Exchanges thought of in one ribbon: every two conductors of up to 60, of more only those that
/// lie near each other.
constexpr int most_exchanges = 1800;

bool are_halves(const Design& design, const ContactRef& one, const ContactRef& other) {
    const auto here = bearing_of(design, one);
    const auto there = bearing_of(design, other);
    if (!here || !there || here->interface != there->interface) return false;
    const std::vector<Signal>& signals = design.interfaces.at(here->interface).signals;
    const Signal& half = signals[here->signal];
    return half.role == Role::pair_half && here->signal != there->signal &&
           signals[there->signal].role == Role::pair_half &&
           half.pair == signals[there->signal].pair;
}

void think_of_two(FaultDesk& desk, std::size_t ribbon, ConductorNumber one, ConductorNumber other) {
    const Wiring& wiring = desk.wiring;
    const auto contact_one = wiring.contact_of(desk.design, ribbon, End::a, one);
    const auto contact_other = wiring.contact_of(desk.design, ribbon, End::a, other);
    if (!contact_one || !contact_other) return;
    const auto piece = [&](const ContactRef& at) { return wiring.piece_of(wiring.point_of(at)); };
    if (piece(*contact_one) == piece(*contact_other)) return;  // the same copper
    // A ground that goes to an idle conductor is missed by nobody: the other grounds stand in.
    const auto matters = [&](const ContactRef& at, const ContactRef& its) {
        return desk.pieces.is_live(piece(at)) &&
               (desk.pieces.is_live(piece(its)) ||
                desk.pieces.standing(piece(at)) != Standing::ground);
    };
    const auto is_idle = [&](const ContactRef& at) { return !desk.pieces.is_live(piece(at)); };
    const bool both_idle = is_idle(*contact_one) && is_idle(*contact_other);
    if (!both_idle && !matters(*contact_one, *contact_other) &&
        !matters(*contact_other, *contact_one)) {
        return;
    }
    const bool halves = are_halves(desk.design, *contact_one, *contact_other);
    const std::string& name = desk.design.ribbons[ribbon].name;
    const Change change{
        {desk.conductor_at(ribbon, one), desk.conductor_at(ribbon, other)},
        {{wiring.point_of(ribbon, End::a, one), wiring.point_of(ribbon, End::b, other)},
         {wiring.point_of(ribbon, End::a, other), wiring.point_of(ribbon, End::b, one)}}};
    desk.faults.push_back(
        {halves ? FaultKind::swap : FaultKind::exchange,
         halves ? "pair-swapped" : "conductors-exchanged", desk.place_of(ribbon, one),
         fmt::format("{} and {} are exchanged{}", desk.spoken(ribbon, one),
                     desk.spoken(ribbon, other), halves ? ": the halves of one pair" : ""),
         fmt::format(
             "measure {} alone, conductor by conductor; if it is straight, a board's copper "
             "exchanges them",
             name),
         change});
}

void think_of_leads(FaultDesk& desk) {
    std::vector<std::pair<std::size_t, std::uint32_t>> leads;
    for (std::uint32_t i = 0; i < desk.wiring.links().size(); ++i) {
        const Link& link = desk.wiring.links()[i];
        if (link.kind == LinkKind::lead) leads.emplace_back(link.place, i);
    }
    int thought_of = 0;
    for (std::size_t i = 0; i < leads.size(); ++i) {
        for (std::size_t k = i + 1; k < leads.size() && thought_of < most_exchanges; ++k) {
            const Link& one = desk.wiring.links()[leads[i].second];
            const Link& other = desk.wiring.links()[leads[k].second];
            if (desk.wiring.piece_of(one.one) == desk.wiring.piece_of(other.one)) continue;
            const std::string& name = desk.design.leads[one.place].name;
            const std::string& second = desk.design.leads[other.place].name;
            ++thought_of;
            desk.faults.push_back(
                {FaultKind::exchange,
                 "leads-exchanged",
                 name,
                 fmt::format("leads {} and {} are exchanged at one end", name, second),
                 fmt::format("follow {} and {} by their colours from end to end", name, second),
                 {{leads[i].second, leads[k].second},
                  {{one.one, other.other}, {other.one, one.other}}}});
        }
    }
}

}  // namespace

void think_of_exchanges(FaultDesk& desk) {
    for (std::size_t r = 0; r < desk.design.ribbons.size(); ++r) {
        const int count = desk.design.ribbons[r].conductors;
        const int furthest = std::max(2, most_exchanges / std::max(1, count));
        for (int i = 1; i <= count; ++i) {
            for (int k = i + 1; k <= std::min(count, i + furthest); ++k) {
                think_of_two(desk, r, ConductorNumber(i), ConductorNumber(k));
            }
        }
    }
    think_of_leads(desk);
}

}  // namespace pinfold
