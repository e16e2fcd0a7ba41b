#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "bringup/fault_desk.hpp"

namespace pinfold {
namespace {

Change joining(Point one, Point other) { return {{}, {{one, other}}}; }

/// Whether a bridge between two points would be one: both hang on something, on different things.
bool would_bridge(const FaultDesk& desk, Point one, Point other) {
    const std::uint32_t here = desk.wiring.piece_of(one);
    const std::uint32_t there = desk.wiring.piece_of(other);
    return here != there && desk.pieces.is_live(here) && desk.pieces.is_live(there);
}

const char* cause_of(const FaultDesk& desk, Point one, Point other) {
    const auto is_ground = [&](Point point) {
        return desk.pieces.standing(desk.wiring.piece_of(point)) == Standing::ground;
    };
    return is_ground(one) || is_ground(other) ? "short-to-ground" : "short-to-neighbour";
}

void think_of_contacts(FaultDesk& desk, PortRef port) {
    const Design& design = desk.design;
    for (const auto& [i, k] : neighbours_in(design, port)) {
        const ContactRef one{port, i};
        const ContactRef other{port, k};
        const Point here = desk.wiring.point_of(one);
        const Point there = desk.wiring.point_of(other);
        if (!would_bridge(desk, here, there)) continue;
        desk.faults.push_back(
            {FaultKind::bridge, cause_of(desk, here, there), name_of(design, one),
             fmt::format("{} and {} are bridged", spoken(design, one), spoken(design, other)),
             fmt::format("look for solder, flux or a strand between contacts {} and {} of {}",
                         design.contact(one).label, design.contact(other).label,
                         name_of(design, port)),
             joining(here, there)});
    }
}

void think_of_ribbon(FaultDesk& desk, std::size_t ribbon) {
    for (int n = 1; n < desk.design.ribbons[ribbon].conductors; ++n) {
        const ConductorNumber one(n);
        const ConductorNumber other(n + 1);
        const Point here = desk.wiring.point_of(ribbon, End::a, one);
        const Point there = desk.wiring.point_of(ribbon, End::a, other);
        if (!would_bridge(desk, here, there)) continue;
        desk.faults.push_back(
            {FaultKind::bridge, cause_of(desk, here, there), desk.place_of(ribbon, one),
             fmt::format("{} and {} are bridged", desk.spoken(ribbon, one),
                         desk.spoken(ribbon, other)),
             fmt::format("take {} out and measure it alone; look for a cut edge, a crease, a hair "
                         "of copper at its ends",
                         desk.design.ribbons[ribbon].name),
             joining(here, there)});
    }
}

/// For one board: a contact of each piece, and one of each ground.
void think_of_ground(FaultDesk& desk, std::size_t board) {
    std::map<std::uint32_t, ContactRef> grounds, others;
    const std::vector<Port>& ports = desk.design.boards[board].ports;
    for (std::size_t p = 0; p < ports.size(); ++p) {
        for (std::size_t i = 0; i < ports[p].contacts.size(); ++i) {
            const ContactRef contact{{board, p}, i};
            if (!desk.copper_at(contact)) continue;
            const std::uint32_t piece = desk.wiring.piece_of(desk.wiring.point_of(contact));
            const bool ground = desk.pieces.standing(piece) == Standing::ground;
            (ground ? grounds : others).try_emplace(piece, contact);
        }
    }
    for (const auto& [ground, at_ground] : grounds) {
        for (const auto& [piece, contact] : others) {
            desk.faults.push_back(
                {FaultKind::bridge, "short-to-ground", name_of(desk.design, contact),
                 fmt::format("{} is on ground, somewhere on {}", spoken(desk.design, contact),
                             desk.design.boards[board].name),
                 fmt::format(
                     "look along its trace on {} for solder on ground copper or on the shell",
                     desk.design.boards[board].name),
                 joining(desk.wiring.point_of(contact), desk.wiring.point_of(at_ground))});
        }
    }
}

}  // namespace

void think_of_bridges(FaultDesk& desk) {
    const Design& design = desk.design;
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) {
            const PortRef port{b, p};
            const bool taken = std::ranges::any_of(
                design.seats, [&](const Seat& seat) { return seat.port == port; });
            if (!design.boards[b].is_device || taken) think_of_contacts(desk, port);
        }
        if (!design.boards[b].is_device) think_of_ground(desk, b);
    }
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) think_of_ribbon(desk, r);
}

Fault stray_bridge(const Design& design, const Wiring& wiring, Point one, Point other) {
    const auto name = [&](Point point) {
        const auto contact = wiring.contact_at(point);
        return contact ? spoken(design, *contact) : wiring.name_of(point, design);
    };
    return {
        FaultKind::bridge,
        "short-stray",
        wiring.name_of(one, design),
        fmt::format("{} and {} are joined though they are no neighbours", name(one), name(other)),
        "look for a stray strand, a swarf of metal or a slip in the boards' copper; part the "
        "assembly at its ribbons and plugs and measure each part alone",
        joining(one, other)};
}

}  // namespace pinfold
