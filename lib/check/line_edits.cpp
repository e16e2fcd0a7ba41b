#include "check/line_edits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "check/occupant.hpp"

namespace pinfold {
namespace {

/// The contacts of a board's port that a ribbon's conductors meet; nothing if one meets none, or if
/// the port is a device's, whose order nobody can change.
std::optional<std::vector<std::size_t>> contacts_met(const Design& design, const Wiring& wiring,
                                                     std::size_t ribbon, End end, PortRef port) {
    if (design.boards[port.board].is_device) return std::nullopt;
    std::vector<std::size_t> contacts;
    for (int n = 1; n <= design.ribbons[ribbon].conductors; ++n) {
        const auto contact = wiring.contact_of(design, ribbon, end, ConductorNumber(n));
        if (!contact) return std::nullopt;
        contacts.push_back(contact->contact);
    }
    return contacts;
}

/// Rewires both boards of a ribbon so that place k bears what place `order[k]` bore.
void add_order(const Design& design, const Wiring& wiring, std::size_t ribbon,
               std::vector<Edit>& edits) {
    const RibbonEnds& ends = wiring.ends_of(ribbon);
    if (!ends.a || !ends.b) return;
    const std::vector<std::size_t> order = guarded_order(design, wiring, ribbon);
    std::vector<std::pair<PortRef, std::vector<std::size_t>>> rewired;
    for (const auto& [end, seat] : {std::pair{End::a, *ends.a}, std::pair{End::b, *ends.b}}) {
        const PortRef port = design.seats[seat].port;
        const auto contacts = contacts_met(design, wiring, ribbon, end, port);
        if (!contacts) return;
        std::vector<std::size_t> from(design.port(port).contacts.size());
        for (std::size_t i = 0; i < from.size(); ++i) from[i] = i;
        for (std::size_t k = 0; k < order.size(); ++k) from[(*contacts)[k]] = (*contacts)[order[k]];
        rewired.emplace_back(port, std::move(from));
    }
    edits.push_back({fmt::format("on {} each pair side by side, between grounds as far as they go",
                                 design.ribbons[ribbon].name),
                     [rewired](Design& copy) {
                         for (const auto& [port, from] : rewired) {
                             rewire(copy.boards[port.board].ports[port.port], from);
                         }
                     }});
}

/// One edit of the type of a ribbon, which stays as it is for the others of that type.
Edit type_edit(std::size_t ribbon, std::string text, std::function<void(RibbonType&)> change) {
    return {std::move(text), [ribbon, change = std::move(change)](Design& copy) {
                RibbonType type = copy.ribbon_types.at(copy.ribbons[ribbon].type);
                change(type);
                const std::string id = type.id + " changed";
                copy.ribbon_types.insert_or_assign(id, std::move(type));
                copy.ribbons[ribbon].type = id;
            }};
}

void add_copper(const Ribbon& ribbon, const RibbonType& type, std::size_t place,
                std::vector<Edit>& edits) {
    const std::optional<Millimetres> now = ribbon.thickness ? ribbon.thickness : type.thickness;
    for (const double mm : {0.05, 0.1}) {  // sold beside 0.035 mm, from memory
        if (type.kind == RibbonKind::round || !now || now->value() >= mm) continue;
        edits.push_back({fmt::format("conductors of {} {:g} mm thick instead of {:g} mm",
                                     ribbon.name, mm, now->value()),
                         [=](Design& copy) { copy.ribbons[place].thickness = Millimetres(mm); }});
    }
    for (const double share : {0.1, -0.1}) {
        const Millimetres width = *type.width + share * type.pitch;
        if (type.kind == RibbonKind::round || width.value() <= 0.0 || width >= type.pitch) continue;
        edits.push_back(type_edit(place,
                                  fmt::format("conductors of {} {:g} mm wide instead of {:g} mm",
                                              ribbon.name, width.value(), type.width->value()),
                                  [width](RibbonType& changed) { changed.width = width; }));
    }
}

void add_film(const Ribbon& ribbon, const RibbonType& type, std::size_t place,
              std::vector<Edit>& edits) {
    constexpr Millimetres thick{0.10};  // a cable maker's page, as the shipped types say
    if (type.kind == RibbonKind::round || !type.film || !type.film->thickness) return;
    if (*type.film->thickness >= thick) return;
    edits.push_back(
        type_edit(place,
                  fmt::format("film of {} {:g} mm on each face instead of {:g} mm", ribbon.name,
                              thick.value(), type.film->thickness->value()),
                  [thick](RibbonType& changed) { changed.film->thickness = thick; }));
}

/// A foil that both boards join to ground: the nearer it is the less the pairs couple, and the
/// lower their impedance.
void add_shield(const Ribbon& ribbon, const RibbonType& type, std::size_t place,
                std::vector<Edit>& edits) {
    const bool filmed = type.film && type.film->thickness && type.film->permittivity;
    if (type.kind == RibbonKind::round || !filmed || ribbon.shield) return;
    for (const double mm : {0.0, 0.1, 0.25}) {  // polyester sheet is sold so thick, from memory
        Shield shield;
        shield.spacer = Millimetres(mm);
        shield.spacer_er = *type.film->permittivity;
        shield.spacer_loss = type.film->loss_tangent.value_or(0.0);
        edits.push_back(
            {fmt::format("a foil {} {}, joined to ground at both ends",
                         mm == 0.0 ? "on the film of" : fmt::format("{:g} mm off the film of", mm),
                         ribbon.name),
             [=](Design& copy) { copy.ribbons[place].shield = shield; }});
    }
}

}  // namespace

std::vector<std::size_t> guarded_order(const Design& design, const Wiring& wiring,
                                       std::size_t ribbon) {
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>> pairs;
    std::vector<std::size_t> grounds, others, order;
    for (const Occupant& occupant : occupants(design, wiring, ribbon)) {
        const std::size_t place = occupant.conductor.index();
        if (occupant.kind == Occupant::Kind::ground) {
            grounds.push_back(place);
        } else if (occupant.fast && occupant.pair) {
            pairs[{occupant.wire->carry, *occupant.pair}].push_back(place);
        } else {
            others.push_back(place);
        }
    }
    std::ranges::reverse(grounds);
    const auto add_ground = [&] {
        if (grounds.empty()) return;
        order.push_back(grounds.back());
        grounds.pop_back();
    };
    add_ground();
    for (const auto& [key, places] : pairs) {
        order.insert(order.end(), places.begin(), places.end());
        add_ground();
    }
    order.insert(order.end(), others.begin(), others.end());
    while (!grounds.empty()) add_ground();
    return order;
}

std::vector<Edit> line_edits(const Design& design, const Wiring& wiring, const LineGroup& group) {
    std::vector<Edit> edits;
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        const Ribbon& ribbon = design.ribbons[r];
        if (std::ranges::find(group.ribbons, ribbon.name) == group.ribbons.end()) continue;
        const RibbonType& type = design.ribbon_types.at(ribbon.type);
        add_order(design, wiring, r, edits);
        add_copper(ribbon, type, r, edits);
        add_film(ribbon, type, r, edits);
        add_shield(ribbon, type, r, edits);
        const Millimetres half = 0.5 * ribbon.length;
        edits.push_back({fmt::format("{} {:g} mm long instead of {:g} mm", ribbon.name,
                                     half.value(), ribbon.length.value()),
                         [=](Design& copy) { copy.ribbons[r].length = half; }});
    }
    const GigabitsPerSecond rate = 0.5 * *design.carries[group.carry].rate;
    edits.push_back({fmt::format("{:g} Gbit/s instead of {:g}", rate.value(), 2.0 * rate.value()),
                     [=, carry = group.carry](Design& copy) { copy.carries[carry].rate = rate; }});
    return edits;
}

}  // namespace pinfold
