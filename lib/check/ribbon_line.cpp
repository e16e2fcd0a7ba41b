#include "check/ribbon_line.hpp"

#include <algorithm>

#include "check/ribbon_section.hpp"

namespace pinfold {
namespace {

constexpr Henries contact_inductance{1e-9};  ///< common practice
constexpr Ohms contact_resistance{0.05};     ///< common practice
constexpr std::size_t most_conductors = 200;

}  // namespace

const std::vector<Occupant>& RibbonLines::row_of(std::size_t ribbon) {
    const auto [row, is_new] = rows_.try_emplace(ribbon);
    if (is_new) row->second = occupants(design_, wiring_, ribbon);
    return row->second;
}

std::vector<Ending> RibbonLines::endings_of(std::size_t ribbon) {
    std::vector<Ending> endings;
    for (const Occupant& o : row_of(ribbon)) endings.push_back(ending_of(o, ribbon));
    return endings;
}

bool RibbonLines::can_solve(std::size_t ribbon) {
    const std::vector<Ending> endings = endings_of(ribbon);
    return std::ranges::count(endings, Ending::tied) > 0 && endings.size() <= most_conductors &&
           section_of(design_, design_.ribbons[ribbon]).has_value();
}

const SolvedRibbon& RibbonLines::solved(std::size_t ribbon) {
    const Ribbon& r = design_.ribbons[ribbon];
    const double thickness = r.thickness.value_or(Millimetres(0.0)).value();
    const auto [at, is_new] = solved_.try_emplace({r.type, r.conductors, thickness});
    if (is_new) {
        const Section section = *section_of(design_, r);
        at->second = {solve_field(section), section.conductors.back().x};
    }
    return at->second;
}

ContactImpedance RibbonLines::contact_of(std::size_t ribbon, End end) const {
    const RibbonEnds& ends = wiring_.ends_of(ribbon);
    const std::optional<std::size_t> seat = end == End::a ? ends.a : ends.b;
    ContactImpedance contact{contact_resistance, contact_inductance};
    if (!seat) return contact;
    const Port& port = design_.port(design_.seats[*seat].port);
    if (!port.ribbon) return contact;
    const auto type = design_.receptacle_types.find(port.ribbon->receptacle);
    if (type != design_.receptacle_types.end() && type->second.contact_resistance) {
        contact.resistance = *type->second.contact_resistance;
    }
    return contact;
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
