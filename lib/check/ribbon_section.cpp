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
    return section;
}

}  // namespace pinfold
