#include "check/conductor_heat.hpp"

#include <fmt/format.h>

#include <cmath>

#include "check/link_resistance.hpp"

namespace pinfold {
namespace {

Finding too_warm(const Ribbon& ribbon, const std::string& name, Amperes current,
                 const FilmRise& warmed) {
    const std::string by = warmed.settles
                               ? fmt::format("warms by about {:.0f} K", warmed.rise.value())
                               : "warms faster than its film can cool it";
    return {Severity::warning,
            "conductor-hot",
            fmt::format("{} {} at {:.2f} A; {:.0f} K is the most usual films are held to (an "
                        "estimate: still air on both faces, its neighbours as warm)",
                        name, by, std::abs(current.value()), most_rise.value()),
            ribbon.at,
            {},
            {ribbon.name, name},
            {}};
}

}  // namespace

std::optional<FilmRise> rise_of(const Design& design, const Link& link, Amperes current) {
    if (link.kind != LinkKind::conductor) return std::nullopt;
    const Ribbon& ribbon = design.ribbons[link.place];
    const RibbonType& type = design.ribbon_types.at(ribbon.type);
    if (type.kind != RibbonKind::flat) return std::nullopt;
    return film_rise(current, copper_section_of(design, ribbon), type.pitch, ribbon_air);
}

Findings check_rises(const Design& design, const Wiring& wiring, const Feeds& feeds) {
    std::vector<const LinkLoad*> worst(design.ribbons.size(), nullptr);
    for (const LinkLoad& load : feeds.loads) {
        const Link& link = wiring.links()[load.link];
        if (link.kind != LinkKind::conductor) continue;
        const LinkLoad*& here = worst[link.place];
        if (!here || std::abs(load.current.value()) > std::abs(here->current.value())) here = &load;
    }
    Findings findings;
    for (std::size_t ribbon = 0; ribbon < worst.size(); ++ribbon) {
        if (!worst[ribbon]) continue;
        const Link& link = wiring.links()[worst[ribbon]->link];
        const auto warmed = rise_of(design, link, worst[ribbon]->current);
        if (!warmed || (warmed->settles && warmed->rise <= most_rise)) continue;
        findings.push_back(too_warm(design.ribbons[ribbon], wiring.name_of(link.one, design),
                                    worst[ribbon]->current, *warmed));
    }
    return findings;
}

}  // namespace pinfold
