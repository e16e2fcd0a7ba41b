#include "check/ribbon_line.hpp"

#include "check/occupant.hpp"
#include "check/ribbon_section.hpp"
#include "physics/conductor.hpp"
#include "physics/validity.hpp"

namespace pinfold {
namespace {

constexpr Henries contact_inductance{1e-9};     ///< common practice
constexpr Ohms usual_contact_resistance{0.05};  ///< common practice
constexpr double ribbon_permittivity = 2.4;     ///< derived, see the header
constexpr std::size_t most_conductors = 200;    ///< more are not worth the time

}  // namespace

const RibbonUse& RibbonLines::use_of(std::size_t ribbon) {
    const auto [use, is_new] = uses_.try_emplace(ribbon);
    if (is_new) use->second = found_use(ribbon);
    return use->second;
}

RibbonUse RibbonLines::found_use(std::size_t ribbon) {
    RibbonUse use;
    for (const Occupant& occupant : occupants(design_, wiring_, ribbon)) {
        use.endings.push_back(ending_of(occupant, ribbon));
        use.fast += occupant.fast ? 1 : 0;
    }
    use.grounds = grounds_of(use.endings);
    if (use.endings.size() > most_conductors) return use;
    const std::optional<Section> section = section_of(design_, design_.ribbons[ribbon]);
    if (!section || (use.grounds.empty() && section->planes.empty())) return use;
    use.field = &memory_.field_of(*section);
    use.span = field_span(*section);
    return use;
}

bool RibbonLines::can_solve(const RibbonLeg& leg) {
    const RibbonUse& use = use_of(leg.ribbon);
    return use.field && use.endings[leg.conductor.index()] == Ending::loaded;
}

const PairOnRibbon& RibbonLines::pair_on(const RibbonLeg& plus, const RibbonLeg& minus) {
    const RibbonUse& use = use_of(plus.ribbon);
    return memory_.pair_of(*use.field, use.grounds, plus.conductor.index(),
                           minus.conductor.index());
}

SingleImpedance RibbonLines::single_on(const RibbonLeg& leg) {
    const RibbonUse& use = use_of(leg.ribbon);
    return memory_.single_of(*use.field, use.grounds, leg.conductor.index());
}

Picoseconds RibbonLines::delay_of(const RibbonLeg& leg, const RibbonLeg& other) {
    const Millimetres length = design_.ribbons[leg.ribbon].length;
    if (!can_solve(leg)) return delay_along(length, ribbon_permittivity);
    const bool together =
        leg.ribbon == other.ribbon && leg.conductor != other.conductor && can_solve(other);
    // Always asked the same way round, so that equal halves have the same delay to the last digit.
    const bool first = leg.conductor.index() < other.conductor.index();
    const double seconds_per_metre =
        together ? (first ? pair_on(leg, other).plus_delay : pair_on(other, leg).minus_delay)
                 : single_on(leg).delay;
    return Picoseconds(seconds_per_metre * 1e9 * length.value());
}

ContactImpedance RibbonLines::contact_of(std::size_t ribbon, End end) const {
    const RibbonEnds& ends = wiring_.ends_of(ribbon);
    const std::optional<std::size_t> seat = end == End::a ? ends.a : ends.b;
    ContactImpedance contact{usual_contact_resistance, contact_inductance};
    if (!seat) return contact;
    const Port& port = design_.port(design_.seats[*seat].port);
    if (!port.ribbon) return contact;
    const auto type = design_.receptacle_types.find(port.ribbon->receptacle);
    if (type == design_.receptacle_types.end()) return contact;
    contact.resistance = type->second.contact_resistance.value_or(contact.resistance);
    contact.inductance = type->second.contact_inductance.value_or(contact.inductance);
    return contact;
}

Farads RibbonLines::contact_capacitance(std::size_t ribbon, End end) const {
    const RibbonEnds& ends = wiring_.ends_of(ribbon);
    const std::optional<std::size_t> seat = end == End::a ? ends.a : ends.b;
    if (!seat) return {};
    const Port& port = design_.port(design_.seats[*seat].port);
    if (!port.ribbon) return {};
    const auto type = design_.receptacle_types.find(port.ribbon->receptacle);
    if (type == design_.receptacle_types.end()) return {};
    return type->second.contact_capacitance.value_or(Farads{});
}

Ending RibbonLines::ending_of(const Occupant& occupant, std::size_t ribbon) const {
    for (const End end : {End::a, End::b}) {
        if (!wiring_.contact_of(design_, ribbon, end, occupant.conductor)) return Ending::open;
    }
    if (occupant.kind == Occupant::Kind::open) return Ending::open;
    const bool tied =
        occupant.kind == Occupant::Kind::ground || occupant.kind == Occupant::Kind::supply;
    return tied ? Ending::tied : Ending::loaded;
}

}  // namespace pinfold
