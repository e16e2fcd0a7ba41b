#include <fmt/format.h>

#include <numbers>

#include "base/fields.hpp"
#include "pinmap/read.hpp"

namespace pinfold {
namespace {

const Words<RibbonKind> ribbon_words{{"flat", RibbonKind::flat}, {"round", RibbonKind::round}};

Range read_range(Fields& parent, const std::string& key, Findings& findings) {
    Range range;
    const Yaml* yaml = parent.any(key);
    if (!yaml) {
        parent.require(key);
        return range;
    }
    Fields fields(*yaml, findings);
    range.least = fields.whole("least", 1);
    range.most = fields.whole("most", 1);
    fields.done();
    if (range.least > range.most) {
        complain(findings, "yaml-number", fmt::format("'{}': least is above most", key), yaml->at);
    }
    return range;
}

std::optional<LengthRange> read_lengths(Fields& parent, const std::string& key,
                                        Findings& findings) {
    const Yaml* yaml = parent.any(key);
    if (!yaml) return std::nullopt;
    Fields fields(*yaml, findings);
    const auto least = fields.quantity<Millimetres>("least");
    const auto most = fields.quantity<Millimetres>("most");
    fields.done();
    if (!least || !most) return std::nullopt;
    if (*least > *most) {
        complain(findings, "yaml-number", fmt::format("'{}': least is above most", key), yaml->at);
    }
    return LengthRange{*least, *most};
}

std::optional<Film> read_film(Fields& parent, Findings& findings) {
    const Yaml* yaml = parent.any("film");
    if (!yaml) return std::nullopt;
    Fields fields(*yaml, findings);
    Film film;
    film.thickness = fields.maybe<Millimetres>("thickness");
    film.permittivity = fields.plain_number("er");
    film.loss_tangent = fields.plain_number("loss");
    film.source = fields.text_or("source", {});
    fields.done();
    return film;
}

/// The metal of one conductor: width times thickness, or the strands of a wire.
SquareMillimetres read_section(Fields& fields, RibbonType& type) {
    if (type.kind == RibbonKind::round) {
        type.width = fields.maybe<Millimetres>("wire-diameter");
        return fields.quantity<SquareMillimetres>("wire-area").value_or(SquareMillimetres{});
    }
    type.width = fields.quantity<Millimetres>("width");
    type.thickness = fields.quantity<Millimetres>("thickness");
    return type.width && type.thickness
               ? SquareMillimetres(type.width->value() * type.thickness->value())
               : SquareMillimetres{};
}

std::vector<Millimetres> read_stock_lengths(Fields& fields, Findings& findings) {
    std::vector<Millimetres> lengths;
    for (const Yaml& item : fields.list("stock-lengths")) {
        const std::string text = text_of(item, "a length", findings);
        const Reading reading = parse_quantity(text, dimension_of<Millimetres>());
        if (reading.value) {
            lengths.emplace_back(*reading.value);
        } else {
            complain(findings, "yaml-unit", fmt::format("a stock length {}", reading.complaint),
                     item.at);
        }
    }
    return lengths;
}

}  // namespace

RibbonType read_ribbon_type(std::string id, std::shared_ptr<const Source> source) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    RibbonType type;
    type.id = std::move(id);

    Fields fields(yaml, findings);
    fields.version("pinfold-ribbon");
    type.name = fields.text("name");
    type.source = fields.text("source");
    type.kind = fields.word<RibbonKind>("kind", ribbon_words).value_or(RibbonKind::flat);
    type.pitch = fields.quantity<Millimetres>("pitch").value_or(Millimetres{});
    type.conductors = read_range(fields, "conductors", findings);
    type.section = read_section(fields, type);
    type.film = read_film(fields, findings);
    type.margin = fields.maybe<Millimetres>("margin");
    type.end_thickness = fields.maybe<Millimetres>("end-thickness");
    type.current = fields.maybe<Amperes>("current");
    type.bend_radius = fields.maybe<Millimetres>("bend-radius");
    type.stock_lengths = read_stock_lengths(fields, findings);
    fields.done();

    if (!findings.empty()) throw InputError(std::move(findings));
    return type;
}

ReceptacleType read_receptacle_type(std::string id, std::shared_ptr<const Source> source) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    ReceptacleType type;
    type.id = std::move(id);

    Fields fields(yaml, findings);
    fields.version("pinfold-receptacle");
    type.name = fields.text("name");
    type.source = fields.text("source");
    type.takes = fields.word<RibbonKind>("takes", ribbon_words).value_or(RibbonKind::flat);
    type.pitch = fields.quantity<Millimetres>("pitch").value_or(Millimetres{});
    type.positions = read_range(fields, "positions", findings);
    type.rows = fields.whole_or("rows", 1, 1);
    if (type.takes == RibbonKind::flat) {
        type.side = fields
                        .word<ContactSide>("side", {{"top", ContactSide::top},
                                                    {"bottom", ContactSide::bottom},
                                                    {"both", ContactSide::both}})
                        .value_or(ContactSide::bottom);
    }
    type.entry = *fields.word_or<Entry>(
        "entry", {{"right-angle", Entry::right_angle}, {"vertical", Entry::vertical}},
        Entry::right_angle);
    type.end_thickness = read_lengths(fields, "end-thickness", findings);
    type.current = fields.maybe<Amperes>("current");
    type.all_loaded = fields.maybe<Percent>("all-loaded");
    type.contact_resistance = fields.maybe<Ohms>("contact-resistance");
    type.contact_inductance = fields.maybe<Henries>("contact-inductance");
    type.contact_capacitance = fields.maybe<Farads>("contact-capacitance");
    if (fields.has("mating-cycles")) type.mating_cycles = fields.whole("mating-cycles", 1);
    fields.done();

    if (!findings.empty()) throw InputError(std::move(findings));
    return type;
}

}  // namespace pinfold
