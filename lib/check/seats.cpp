#include "check/seats.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

class Fits {
public:
    Fits(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    Findings find() {
        for (const PortJoin& join : design_.joins) check_join(join);
        for (const Seat& seat : design_.seats) check_seat(seat);
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) check_ends(r);
        return std::move(findings_);
    }

private:
    void add(const char* rule, Severity severity, std::string text, const Mark& at,
             std::vector<std::string> places) {
        findings_.push_back({severity, rule, std::move(text), at, {}, std::move(places), {}});
    }

    void check_join(const PortJoin& join) {
        const Port& a = design_.port(join.a);
        const Port& b = design_.port(join.b);
        const std::vector<std::string> places{name_of(design_, join.a), name_of(design_, join.b)};
        if (a.ribbon || b.ribbon || a.connector.empty() || b.connector.empty()) {
            const PortRef wrong = a.ribbon || a.connector.empty() ? join.a : join.b;
            add("gender-misfit", Severity::error,
                fmt::format(
                    "{} is no connector that a plug goes into; join {}", name_of(design_, wrong),
                    design_.port(wrong).ribbon ? "it to a ribbon end" : "its pads with leads"),
                join.at, places);
            return;
        }
        if (a.gender == b.gender) {
            add("gender-misfit", Severity::error,
                fmt::format("{} and {} are both {}s", places[0], places[1], name_of(a.gender)),
                join.at, places);
        }
        const std::string& body_a = design_.connectors.at(a.connector).body;
        const std::string& body_b = design_.connectors.at(b.connector).body;
        if (body_a != body_b) {
            add("body-misfit", Severity::error,
                fmt::format("{} is {}, {} is {}: they do not go together", places[0], body_a,
                            places[1], body_b),
                join.at, places);
        }
    }

    void check_seat(const Seat& seat) {
        const Ribbon& ribbon = design_.ribbons[seat.ribbon];
        const RibbonType& type = design_.ribbon_types.at(ribbon.type);
        const Port& port = design_.port(seat.port);
        const std::vector<std::string> places{ribbon.name, name_of(design_, seat.port)};
        if (!port.ribbon) {
            add("gender-misfit", Severity::error,
                fmt::format("{} does not take a ribbon", places[1]), seat.at, places);
            return;
        }
        const ReceptacleType& receptacle = design_.receptacle_types.at(port.ribbon->receptacle);
        if (receptacle.takes != type.kind) {
            add("gender-misfit", Severity::error,
                fmt::format("{} takes {} ribbons, {} is {}", places[1], name_of(receptacle.takes),
                            places[0], name_of(type.kind)),
                seat.at, places);
            return;
        }
        if (!port.connector.empty() &&
            design_.connectors.at(port.connector).pitch != receptacle.pitch) {
            add("pitch-misfit", Severity::error,
                fmt::format("{} has a pitch of {:g} mm, the receptacle of {} has {:g} mm",
                            port.connector, design_.connectors.at(port.connector).pitch.value(),
                            places[1], receptacle.pitch.value()),
                seat.at, places);
        }
        if (receptacle.pitch != type.pitch) {
            add("pitch-misfit", Severity::error,
                fmt::format("{} has a pitch of {:g} mm, {} takes {:g} mm", places[0],
                            type.pitch.value(), places[1], receptacle.pitch.value()),
                seat.at, places);
        }
        const std::size_t contacts = port.contacts.size();
        if (static_cast<std::size_t>(ribbon.conductors) < contacts) {
            add("positions-misfit", Severity::error,
                fmt::format("{} has {} conductors, {} has {} contacts: the ribbon can slip "
                            "sideways",
                            places[0], ribbon.conductors, places[1], contacts),
                seat.at, places);
        }
        check_thickness(seat, type, receptacle, places);
    }

    void check_thickness(const Seat& seat, const RibbonType& type, const ReceptacleType& receptacle,
                         const std::vector<std::string>& places) {
        if (!type.end_thickness || !receptacle.end_thickness) return;
        if (receptacle.end_thickness->holds(*type.end_thickness)) return;
        add("end-thickness-misfit", Severity::warning,
            fmt::format("the end of {} is {:g} mm thick, {} takes {:g} to {:g} mm", places[0],
                        type.end_thickness->value(), places[1],
                        receptacle.end_thickness->least.value(),
                        receptacle.end_thickness->most.value()),
            seat.at, places);
    }

    void check_ends(std::size_t r) {
        const RibbonEnds& ends = wiring_.ends_of(r);
        for (const End end : {End::a, End::b}) {
            if (end == End::a ? ends.a : ends.b) continue;
            const Ribbon& ribbon = design_.ribbons[r];
            add("ribbon-loose", Severity::warning,
                fmt::format("{}.{} is joined to nothing", ribbon.name, name_of(end)), ribbon.at,
                {ribbon.name});
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    Findings findings_;
};

/// Where the two ends sit, in words.
std::vector<std::string> places_of(const Design& design, std::size_t ribbon,
                                   const RibbonEnds& ends) {
    return {design.ribbons[ribbon].name, name_of(design, design.seats[*ends.a].port),
            name_of(design, design.seats[*ends.b].port)};
}

Finding copper_away(const Design& design, std::size_t r, const RibbonEnds& ends) {
    const Ribbon& ribbon = design.ribbons[r];
    const std::vector<std::string> places = places_of(design, r, ends);
    return {Severity::error,
            "copper-away",
            fmt::format("with its copper on the contacts of {}, {} turns its copper away from the "
                        "contacts of {}: every conductor is open there",
                        places[1], places[0], places[2]),
            ribbon.at,
            {{design.seats[*ends.b].at, "this end does not touch"}},
            places,
            {}};
}

Finding lay_unknown(const Design& design, std::size_t r, const RibbonEnds& ends,
                    const Seating& seating) {
    const std::vector<std::string> places = places_of(design, r, ends);
    return {Severity::note,
            "lay-unknown",
            fmt::format("{} touches at both ends only if the boards lie for it: {}; give 'lay' "
                        "and 'faces' to have it proved",
                        places[0], lying_that_touches(seating, design.ribbons[r].copper)),
            design.ribbons[r].at,
            {},
            places,
            {}};
}

}  // namespace

std::string lying_that_touches(Seating seating, Copper copper) {
    if (seating.side_a == ContactSide::both || seating.side_b == ContactSide::both) {
        return "a receptacle with contacts on both sides touches however they lie";
    }
    const Lay level{{}, Facing::up, Facing::up};
    const bool same_way = copper_that_touches(level, seating.side_a, seating.side_b) == copper;
    return same_way ? "laid flat and straight, both boards face the same way"
                    : "laid flat and straight, one board faces up and the other down";
}

Finding either_way_up(const Design& design, std::size_t ribbon, const RibbonEnds& ends,
                      bool matters) {
    const std::vector<std::string> places = places_of(design, ribbon, ends);
    const bool at_b =
        design.port(design.seats[*ends.b].port).ribbon->mouth.side == ContactSide::both;
    const Seat& seat = design.seats[at_b ? *ends.b : *ends.a];
    const std::string join =
        fmt::format("{} + {}.{}", at_b ? places[2] : places[1], places[0], at_b ? "b" : "a");
    std::vector<std::string> repairs;
    if (matters) {
        repairs.push_back(fmt::format("write {{join: {}, touches: {}}} and put it in so", join,
                                      name_of(seat.touches.value_or(ContactSide::bottom))));
    }
    return {matters ? Severity::error : Severity::warning,
            "either-way-up",
            fmt::format(
                "{} makes contact either way up at {}, in straight or in mirrored order, "
                "{}; say which contacts it is to touch, such as {{join: {}, touches: "
                "bottom}}",
                places[0], at_b ? places[2] : places[1],
                matters ? "and only one of them keeps the promises" : "and nothing decides which",
                join),
            design.ribbons[ribbon].at,
            {},
            places,
            std::move(repairs)};
}

Findings check_fits(const Design& design, const Wiring& wiring) {
    return Fits(design, wiring).find();
}

Findings check_touch(const Design& design, const Wiring& wiring) {
    Findings findings;
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        const std::optional<Seating>& seating = wiring.seating_of(r);
        if (!seating) continue;
        const RibbonEnds& ends = wiring.ends_of(r);
        const bool flat = design.ribbon_types.at(design.ribbons[r].type).kind == RibbonKind::flat;
        if (!seating->touch_b) {
            findings.push_back(copper_away(design, r, ends));
        } else if (seating->order == Order::either) {
            findings.push_back(either_way_up(design, r, ends, false));
        } else if (flat && !design.ribbons[r].lay) {
            findings.push_back(lay_unknown(design, r, ends, *seating));
        }
    }
    return findings;
}

}  // namespace pinfold
