#include "document/ribbon_text.hpp"

#include <fmt/format.h>

#include <optional>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "document/pinmap_text.hpp"
#include "pinmap/doubt.hpp"

namespace pinfold {
namespace {

/// Lines of a name and a value; what is not known is left out.
class PropertySheet {
public:
    void line(const char* name, std::string value) { rows_.push_back({name, std::move(value)}); }
    void range(const char* name, const Range& range) {
        line(name, fmt::format("{} to {}", range.least, range.most));
    }
    template <class Unit>
    void line(const char* name, const std::optional<Quantity<Unit>>& value, const char* unit) {
        if (value) line(name, fmt::format("{:.6g} {}", value->value(), unit));
    }
    std::string text() const { return in_columns(rows_, "    "); }

private:
    Rows rows_;
};

void add_film(PropertySheet& sheet, const std::optional<Film>& film) {
    if (!film) return;
    sheet.line("film, each side", film->thickness, "mm");
    if (film->permittivity) {
        sheet.line("its permittivity", fmt::format("{:.6g}", *film->permittivity));
    }
    if (film->loss_tangent) {
        sheet.line("its loss tangent", fmt::format("{:.6g}", *film->loss_tangent));
    }
}

std::string stock_text(const RibbonType& ribbon) {
    if (ribbon.stock_lengths.empty()) return {};
    std::string text = "Stock lengths:";
    for (const Millimetres length : ribbon.stock_lengths) {
        text += fmt::format(" {:.6g}", length.value());
    }
    return in_lines(text + " mm", "    ");
}

std::string heading(const std::string& id, const std::string& name) {
    return fmt::format("{}: {}\n\n", id, name);
}

}  // namespace

std::string ribbon_text(const RibbonType& ribbon) {
    PropertySheet sheet;
    sheet.line("kind", fmt::format("{} conductors", name_of(ribbon.kind)));
    sheet.line("pitch", std::optional(ribbon.pitch), "mm");
    sheet.range("conductors", ribbon.conductors);
    sheet.line("width of a conductor", ribbon.width, "mm");
    sheet.line("thickness of a conductor", ribbon.thickness, "mm");
    sheet.line("metal of a conductor", std::optional(ribbon.section), "mm2");
    add_film(sheet, ribbon.film);
    sheet.line("last conductor to edge", ribbon.margin, "mm");
    sheet.line("thickness at the ends", ribbon.end_thickness, "mm");
    sheet.line("current of a conductor", ribbon.current, "A");
    sheet.line("bend radius, at least", ribbon.bend_radius, "mm");
    std::string text = heading(ribbon.id, ribbon.name) + sheet.text() + stock_text(ribbon);
    if (ribbon.film && !ribbon.film->source.empty()) {
        text += in_lines("source of the film: " + ribbon.film->source, "    ");
    }
    return shown_page(text + source_text(ribbon.source, doubts_of(ribbon)));
}

std::string receptacle_text(const ReceptacleType& receptacle) {
    PropertySheet sheet;
    sheet.line("takes", fmt::format("a ribbon with {} conductors", name_of(receptacle.takes)));
    sheet.line("pitch of the ribbon", std::optional(receptacle.pitch), "mm");
    sheet.range("positions", receptacle.positions);
    sheet.line("rows", fmt::format("{}", receptacle.rows));
    if (receptacle.takes == RibbonKind::flat) {
        sheet.line("contact side", std::string(name_of(receptacle.side)));
    }
    sheet.line("entry", std::string(name_of(receptacle.entry)));
    if (receptacle.end_thickness) {
        sheet.line("end thickness",
                   fmt::format("{:.6g} to {:.6g} mm", receptacle.end_thickness->least.value(),
                               receptacle.end_thickness->most.value()));
    }
    sheet.line("current of a contact", receptacle.current, "A");
    sheet.line("of it with all loaded", receptacle.all_loaded, "%");
    sheet.line("contact resistance", receptacle.contact_resistance, "ohm");
    sheet.line("contact inductance", receptacle.contact_inductance, "H");
    sheet.line("contact capacitance", receptacle.contact_capacitance, "F");
    if (receptacle.mating_cycles) {
        sheet.line("mating cycles", fmt::format("{}", *receptacle.mating_cycles));
    }
    return shown_page(heading(receptacle.id, receptacle.name) + sheet.text() +
                      source_text(receptacle.source, doubts_of(receptacle)));
}

}  // namespace pinfold
