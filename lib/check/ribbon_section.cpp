#include "check/ribbon_section.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

void add_wire(Section& section, Millimetres x, Millimetres diameter, const Film* film) {
    SectionConductor wire;
    wire.name = fmt::format("{}", section.conductors.size() + 1);
    wire.x = x;
    wire.diameter = diameter;
    section.conductors.push_back(std::move(wire));
    if (!film) return;
    SectionDielectric jacket;
    jacket.x = x;
    jacket.diameter = diameter + 2.0 * *film->thickness;
    jacket.er = *film->permittivity;
    jacket.loss = film->loss_tangent.value_or(0.0);
    section.dielectrics.push_back(jacket);
}

void add_strip(Section& section, Millimetres x, Millimetres width, Millimetres thickness) {
    SectionConductor strip;
    strip.name = fmt::format("{}", section.conductors.size() + 1);
    strip.x = x;
    strip.width = width;
    strip.thickness = thickness;
    section.conductors.push_back(std::move(strip));
}

void add_film(Section& section, const RibbonType& type, Millimetres thickness, const Film& film) {
    const Millimetres margin = type.margin.value_or(type.pitch);
    SectionDielectric layer;
    layer.x_min = section.conductors.front().x - margin;
    layer.x_max = section.conductors.back().x + margin;
    layer.y_max = 0.5 * thickness + *film.thickness;
    layer.y_min = -1.0 * layer.y_max;
    layer.er = *film.permittivity;
    layer.loss = film.loss_tangent.value_or(0.0);
    section.dielectrics.push_back(layer);
}

/// The spacer between the film and the foil, and the foil, below or above by the sign.
void add_foil(Section& section, const Shield& shield, double sign) {
    const SectionConductor& last = section.conductors.back();
    const bool filmed = !section.dielectrics.empty();
    const Millimetres from = filmed ? section.dielectrics.front().y_max : 0.5 * last.thickness;
    const Millimetres to = from + shield.spacer;
    if (shield.spacer.value() > 0.0) {
        SectionDielectric layer;
        layer.x_min = filmed ? section.dielectrics.front().x_min : section.conductors.front().x;
        layer.x_max = filmed ? section.dielectrics.front().x_max : last.x;
        layer.y_min = sign > 0.0 ? from : -1.0 * to;
        layer.y_max = sign > 0.0 ? to : -1.0 * from;
        layer.er = shield.spacer_er;
        layer.loss = shield.spacer_loss;
        section.dielectrics.push_back(layer);
    }
    section.planes.push_back({sign * to, shield.at});
}

}  // namespace

std::optional<Section> section_of(const Design& design, const Ribbon& ribbon) {
    const auto found = design.ribbon_types.find(ribbon.type);
    if (found == design.ribbon_types.end()) return std::nullopt;
    const RibbonType& type = found->second;
    const std::optional<Millimetres> thickness =
        ribbon.thickness ? ribbon.thickness : type.thickness;
    const bool round = type.kind == RibbonKind::round;
    if (!type.width || (!round && !thickness)) return std::nullopt;
    const bool filmed = type.film && type.film->thickness && type.film->permittivity;
    const Film* film = filmed ? &*type.film : nullptr;
    Section section;
    section.at = ribbon.at;
    for (int i = 0; i < ribbon.conductors; ++i) {
        const Millimetres x = static_cast<double>(i) * type.pitch;
        if (round) add_wire(section, x, *type.width, film);
        if (!round) add_strip(section, x, *type.width, *thickness);
    }
    if (film && !round) add_film(section, type, *thickness, *film);
    if (ribbon.shield) add_foil(section, *ribbon.shield, -1.0);
    if (ribbon.shield && ribbon.shield->both_sides) add_foil(section, *ribbon.shield, 1.0);
    return section;
}

}  // namespace pinfold
