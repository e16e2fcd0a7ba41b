#include "check/link_resistance.hpp"

#include <algorithm>

#include "check/supply_trace.hpp"
#include "physics/conductor.hpp"

namespace pinfold {
namespace {

/// What the user measured at a contact, else what the pin map says, else what is usual.
Ohms contact_resistance(const MeasuredContacts& measured, std::optional<std::size_t> contact,
                        std::optional<Ohms> of_part) {
    if (contact) {
        const auto single = measured.single.find(*contact);
        if (single != measured.single.end()) return single->second;
    }
    return measured.all.value_or(of_part.value_or(usual_contact));
}

/// The place of a link's contact on the port it belongs to.
std::optional<std::size_t> contact_of(const Wiring& wiring, const Link& link) {
    const auto contact = wiring.contact_at(link.one);
    return contact ? std::optional(contact->contact) : std::nullopt;
}

Ohms seat_resistance(const Design& design, const Wiring& wiring, const Link& link) {
    const Seat& seat = design.seats[link.place];
    const Port& port = design.port(seat.port);
    return contact_resistance(
        seat.measured, contact_of(wiring, link),
        design.receptacle_types.at(port.ribbon->receptacle).contact_resistance);
}

Ohms join_resistance(const Design& design, const Wiring& wiring, const Link& link) {
    const PortJoin& join = design.joins[link.place];
    const Port& port = design.port(join.a);
    std::optional<Ohms> of_part;
    if (!port.connector.empty()) {
        of_part = design.connectors.at(port.connector).contact_resistance;
    }
    return contact_resistance(join.measured, contact_of(wiring, link), of_part);
}

/// A port's end of a trace is half of it: from any port to any other it is as long as written.
Ohms trace_resistance(const Design& design, const Wiring& wiring, const Link& link) {
    const auto trace = supply_trace_of(design, wiring, link);
    if (!trace) return Ohms{};
    const SquareMillimetres section(trace->width.value() * trace->thickness.value());
    return dc_resistance(section, 0.5 * trace->length, warm);
}

Ohms whole_resistance(const Design& design, const Wiring& wiring, const Link& link) {
    switch (link.kind) {
        case LinkKind::conductor: {
            const Ribbon& ribbon = design.ribbons[link.place];
            return dc_resistance(copper_section_of(design, ribbon), ribbon.length, warm);
        }
        case LinkKind::lead: {
            const Lead& lead = design.leads[link.place];
            return dc_resistance(lead.section, lead.length, warm);
        }
        case LinkKind::seat: return seat_resistance(design, wiring, link);
        case LinkKind::join: return join_resistance(design, wiring, link);
        case LinkKind::copper: return trace_resistance(design, wiring, link);
    }
    return Ohms{};
}

}  // namespace

SquareMillimetres copper_section_of(const Design& design, const Ribbon& ribbon) {
    const RibbonType& type = design.ribbon_types.at(ribbon.type);
    if (!ribbon.thickness || !type.width) return type.section;
    return SquareMillimetres(ribbon.thickness->value() * type.width->value());
}

Ohms resistance_of(const Design& design, const Wiring& wiring, const Link& link) {
    return std::clamp(whole_resistance(design, wiring, link), Ohms(1e-6), Ohms(1e6));
}

}  // namespace pinfold
