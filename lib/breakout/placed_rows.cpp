#include "breakout/placed_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "breakout/usual_pads.hpp"

namespace pinfold {
namespace {

using PlacedSpots = std::vector<std::pair<std::size_t, Spot>>;  // contacts and where they are

bool all_placed(const Port& port) {
    return port.placing && std::ranges::all_of(port.contacts, [&](const PortContact& contact) {
               return !contact.net ||
                      std::ranges::find(port.placing->pads, contact.label, &PlacedPad::label) !=
                          port.placing->pads.end();
           });
}

/// Pads on the board, turned so that the near mouth looks down the page.
PlacedSpots spots_in_frame(const Port& port, const Placing& frame) {
    const double angle = -frame.angle * std::acos(-1.0) / 180.0;
    PlacedSpots spots;
    for (const PlacedPad& pad : on_board(*port.placing)) {
        const auto contact = std::ranges::find(port.contacts, pad.label, &PortContact::label);
        if (contact == port.contacts.end()) continue;
        const double x = pad.x.value() - frame.x.value();
        const double y = pad.y.value() - frame.y.value();
        spots.emplace_back(static_cast<std::size_t>(contact - port.contacts.begin()),
                           Spot{x * std::cos(angle) - y * std::sin(angle),
                                x * std::sin(angle) + y * std::cos(angle)});
    }
    return spots;
}

/// The least distance of two places along one row, x along it; the usual one of a lone pad.
double placed_pitch(const Design& design, const Port& port, const PlacedSpots& spots) {
    constexpr double one_row = 0.05;  // nearer than any two rows
    double least = HUGE_VAL;
    for (const auto& [contact, spot] : spots) {
        for (const auto& [other, place] : spots) {
            const double apart = place.x_mm - spot.x_mm;
            const bool beside = std::abs(place.y_mm - spot.y_mm) <= one_row;
            if (contact != other && apart >= 0.0 && beside) least = std::min(least, apart);
        }
    }
    return std::isfinite(least) ? least : usual_pads(design, port).pitch_mm;
}

std::vector<PlacedContact> contacts_at(const Design& design, const Port& port,
                                       const PlacedSpots& spots) {
    const double pitch = placed_pitch(design, port, spots);
    std::vector<PlacedContact> row;
    for (const auto& [contact, spot] : spots) {
        row.push_back({contact, spot.x_mm, spot.y_mm, pitch});
    }
    return row;
}

std::vector<std::string> shield_pads(const Port& port) {
    std::vector<std::string> pads;
    for (const PlacedPad& pad : port.placing->pads) {
        if (std::ranges::find(port.shell, pad.label) == port.shell.end()) continue;
        pads.push_back(fmt::format("{}.{}", port.name, pad.label));
    }
    return pads;
}

/// Lays both rows in their own frames; whether they lie one beyond the other.
bool lay_rows(const Design& design, const Port& near, const Port& far, PlacedRows& rows) {
    PlacedSpots near_spots = spots_in_frame(near, *near.placing);
    PlacedSpots far_spots = spots_in_frame(far, *near.placing);
    const bool in_line = rows.course == Course::in_line;
    const double mirror = rows.course == Course::to_left ? -1.0 : 1.0;
    double near_front = -1e9, far_front = 1e9;
    for (const auto& [contact, spot] : near_spots) near_front = std::max(near_front, spot.y_mm);
    for (auto& [contact, spot] : near_spots) {
        spot = {mirror * spot.x_mm, near_front - spot.y_mm};
    }
    // In the row's own frame: along it, and behind its front line.
    for (auto& [contact, spot] : far_spots) {
        const Spot turned{-(spot.y_mm - near_front), mirror * spot.x_mm};
        spot = in_line ? Spot{spot.x_mm, spot.y_mm - near_front} : turned;
        far_front = std::min(far_front, spot.y_mm);
    }
    for (auto& [contact, spot] : far_spots) spot.y_mm -= far_front;
    rows.front_mm = far_front;
    rows.near = contacts_at(design, near, near_spots);
    rows.far = contacts_at(design, far, far_spots);
    return in_line ? far_front > 0.0 : std::ranges::all_of(rows.far, [](const PlacedContact& pad) {
        return pad.along_mm < 0.0;
    });
}

PlacedRows not_drawn(const char* why) {
    PlacedRows rows;
    rows.why_not = why;
    return rows;
}

}  // namespace

PlacedRows placed_rows(const Design& design, const Port& near, const Port& far) {
    if (!all_placed(near) || !all_placed(far)) return not_drawn("not every contact has a place");
    if (near.placing->bottom != far.placing->bottom) {
        return not_drawn("the ports lie on both sides of the board");
    }
    const int turn = (far.placing->angle - near.placing->angle + 360) % 360;
    if (turn % 90 != 0) return not_drawn("the ports do not stand at right angles");
    PlacedRows rows;
    rows.course = turn == 90 ? Course::to_right : turn == 270 ? Course::to_left : Course::in_line;
    if (!lay_rows(design, near, far, rows))
        return not_drawn("the rows do not lie one beyond the other");
    rows.shells = shield_pads(near);
    const std::vector<std::string> more = shield_pads(far);
    rows.shells.insert(rows.shells.end(), more.begin(), more.end());
    return rows;
}

}  // namespace pinfold
