#include "physics/read_section.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/fields.hpp"
#include "base/spelling.hpp"

namespace pinfold {
namespace {

/// A number that may be negative; the file's numbers are mm without a unit.
double number(Fields& fields, const std::string& key, double least, double most,
              Findings& findings) {
    const std::string text = fields.text(key);
    if (text.empty()) return 0.0;
    const std::optional<double> value = parse_number(text);
    if (value && *value >= least && *value <= most) return *value;
    complain(
        findings, "section-number",
        fmt::format("'{}' must be a number from {:g} to {:g}, not '{}'", key, least, most, text),
        fields.at(key));
    return 0.0;
}

Millimetres place(Fields& fields, const std::string& key, Findings& findings) {
    return Millimetres(number(fields, key, -farthest_mm, farthest_mm, findings));
}

/// A size in mm, above nothing.
Millimetres size(Fields& fields, const std::string& key, Findings& findings) {
    const std::string text = fields.text(key);
    if (text.empty()) return Millimetres(1.0);
    const std::optional<double> value = parse_number(text);
    if (value && *value >= least_size_mm && *value <= farthest_mm) return Millimetres(*value);
    complain(findings, "section-number",
             fmt::format("'{}' must be a number of mm above nothing, from {:g} to {:g}, not '{}'",
                         key, least_size_mm, farthest_mm, text),
             fields.at(key));
    return Millimetres(1.0);
}

SectionConductor read_conductor(const Yaml& yaml, Findings& findings) {
    SectionConductor conductor;
    Fields fields(yaml, findings);
    conductor.at = yaml.at;
    conductor.name = fields.text("name");
    conductor.x = place(fields, "x", findings);
    conductor.y = place(fields, "y", findings);
    if (fields.has("diameter")) {
        conductor.diameter = size(fields, "diameter", findings);
    } else {
        conductor.width = size(fields, "width", findings);
        conductor.thickness = size(fields, "thickness", findings);
    }
    fields.done();
    return conductor;
}

SectionDielectric read_dielectric(const Yaml& yaml, Findings& findings) {
    SectionDielectric dielectric;
    Fields fields(yaml, findings);
    dielectric.at = yaml.at;
    if (fields.has("diameter")) {
        dielectric.x = place(fields, "x", findings);
        dielectric.y = place(fields, "y", findings);
        dielectric.diameter = size(fields, "diameter", findings);
    } else {
        dielectric.x_min = place(fields, "x-min", findings);
        dielectric.x_max = place(fields, "x-max", findings);
        dielectric.y_min = place(fields, "y-min", findings);
        dielectric.y_max = place(fields, "y-max", findings);
    }
    dielectric.er = number(fields, "er", 1.0, 1000.0, findings);
    if (fields.has("loss")) dielectric.loss = number(fields, "loss", 0.0, 1.0, findings);
    fields.done();
    return dielectric;
}

/// The conductor of that name, or nothing with a finding.
std::optional<std::size_t> conductor_named(const Section& section, const Yaml& yaml,
                                           Findings& findings) {
    const std::string name = text_of(yaml, "the name of a conductor", findings);
    const auto found = std::ranges::find(section.conductors, name, &SectionConductor::name);
    if (found != section.conductors.end()) {
        return static_cast<std::size_t>(found - section.conductors.begin());
    }
    if (yaml.kind != Yaml::Kind::scalar) return std::nullopt;
    std::vector<std::string> names;
    for (const SectionConductor& conductor : section.conductors) names.push_back(conductor.name);
    complain(findings, "section-name",
             fmt::format("no conductor is called '{}'{}", name, did_you_mean(name, names)),
             yaml.at);
    return std::nullopt;
}

void read_pairs(Fields& fields, Section& section, Findings& findings) {
    for (const Yaml& item : fields.list("pairs")) {
        if (item.kind != Yaml::Kind::list || item.items.size() != 2) {
            complain(findings, "yaml-shape", "a pair is a list of two conductors, such as [c2, c3]",
                     item.at);
            continue;
        }
        const auto plus = conductor_named(section, item.items[0], findings);
        const auto minus = conductor_named(section, item.items[1], findings);
        if (plus && minus) section.pairs.push_back({*plus, *minus, item.at});
    }
}

void read_ground(Fields& fields, Section& section, Findings& findings) {
    for (const Yaml& item : fields.list("ground")) {
        const auto found = conductor_named(section, item, findings);
        if (!found) continue;
        if (std::ranges::find(section.ground, *found) != section.ground.end()) {
            complain(findings, "section-name",
                     fmt::format("'{}' stands twice in 'ground'", item.scalar), item.at);
            continue;
        }
        section.ground.push_back(*found);
    }
}

void require_own_names(const Section& section, Findings& findings) {
    std::vector<const SectionConductor*> sorted;
    for (const SectionConductor& conductor : section.conductors) sorted.push_back(&conductor);
    std::ranges::stable_sort(sorted, {}, &SectionConductor::name);
    for (std::size_t i = 1; i < sorted.size(); ++i) {
        if (sorted[i]->name.empty() || sorted[i]->name != sorted[i - 1]->name) continue;
        complain(findings, "section-name",
                 fmt::format("two conductors are called '{}'", sorted[i]->name), sorted[i]->at,
                 {{sorted[i - 1]->at, "the other is here"}});
    }
}

}  // namespace

Section read_section(std::shared_ptr<const Source> source) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    Section section;
    section.at = yaml.at;

    Fields fields(yaml, findings);
    fields.version("pinfold-section");
    fields.require("conductors");
    for (const Yaml& item : fields.list("conductors")) {
        section.conductors.push_back(read_conductor(item, findings));
    }
    for (const Yaml& item : fields.list("dielectrics")) {
        section.dielectrics.push_back(read_dielectric(item, findings));
    }
    for (const Yaml& item : fields.list("planes")) {
        Fields plane(item, findings);
        section.planes.push_back({place(plane, "y", findings), item.at});
        plane.done();
    }
    require_own_names(section, findings);
    read_ground(fields, section, findings);
    read_pairs(fields, section, findings);
    section.frequency = fields.maybe<Hertz>("frequency");
    fields.done();

    if (!findings.empty()) throw InputError(std::move(findings));
    require_solvable(section);
    require_line(section);
    return section;
}

}  // namespace pinfold
