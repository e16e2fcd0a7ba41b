#include "document/table_ribbon.hpp"

#include <fmt/format.h>

#include "document/table_words.hpp"

namespace pinfold {
namespace {

const RibbonType& type_of(const Design& design, std::size_t ribbon) {
    return design.ribbon_types.at(design.ribbons[ribbon].type);
}

std::string place_of(const Design& design, const std::optional<std::size_t>& seat) {
    return seat ? one_line(name_of(design, design.seats[*seat].port)) : "nothing";
}

std::vector<Fact> flat_facts(const Ribbon& cut, const RibbonType& type) {
    std::vector<Fact> facts{{"Copper", in_words(cut.copper)}};
    const std::optional<Millimetres> thickness = cut.thickness ? cut.thickness : type.thickness;
    if (type.width && thickness) {
        facts.push_back(
            {"Conductor", fmt::format("{:.6g} x {}", type.width->value(), in_words(*thickness))});
    }
    if (type.end_thickness) {
        facts.push_back({"End", in_words(*type.end_thickness) + " thick with its stiffener"});
    }
    return facts;
}

std::vector<Fact> round_facts(const Ribbon& cut, const RibbonType& type) {
    return {{"Wire", fmt::format("{:.6g} mm2 of metal each", type.section.value())},
            {"Sockets", cut.turned_socket
                            ? "contact 1 on the marked edge at end a, on the far edge at end b"
                            : "contact 1 on the marked edge at both ends"}};
}

std::vector<Fact> buying_facts(const Ribbon& cut, const RibbonType& type) {
    std::vector<Fact> facts{
        {"Type", one_line(type.name)},
        {"Pitch", in_words(type.pitch)},
        {"Conductors", std::to_string(cut.conductors)},
        {"Length", fmt::format("{}; {}", in_words(cut.length),
                               stock_in_words(cut.length, type.stock_lengths))}};
    const std::vector<Fact> more =
        type.kind == RibbonKind::flat ? flat_facts(cut, type) : round_facts(cut, type);
    facts.insert(facts.end(), more.begin(), more.end());
    facts.push_back({"Width", in_words(type.overall_width(cut.conductors)) + " over all"});
    return facts;
}

/// The row of contacts that touches at one end, and how the drawing shows that end.
struct Touch {
    std::optional<ContactSide> side;
    bool touches = true;
    CopperView drawn = CopperView::sockets;
};

std::vector<Fact> ribbon_seat_facts(const RibbonMouth& mouth, const ReceptacleType& type,
                                    const Touch& touch) {
    if (type.takes == RibbonKind::round) {
        return {{"Receptacle", one_line(type.name)}, {"Contact 1", "see the mark on the part"}};
    }
    std::vector<Fact> facts{{"Receptacle", one_line(type.name)},
                            {"Contacts", contacts_in_words(type.side, type.entry)},
                            {"Contact 1", first_contact_in_words(mouth.mouth.first, type.entry)}};
    if (touch.side && touch.touches) {
        const bool drawn_up = touch.drawn == CopperView::towards_you;
        facts.push_back({"Put it in", copper_in_words(*touch.side, type.entry, drawn_up)});
    }
    return facts;
}

std::vector<Fact> seat_facts(const Design& design, const std::optional<std::size_t>& seat,
                             const Touch& touch) {
    std::vector<Fact> facts{{"Joined to", place_of(design, seat)}};
    if (!seat) return facts;
    const Port& port = design.port(design.seats[*seat].port);
    if (!port.reference.empty()) facts[0].text += ", " + one_line(port.reference);
    if (!port.part.empty()) facts.push_back({"Part", one_line(port.part)});
    if (!port.ribbon) {
        facts.push_back({"Receptacle", "none: this port does not take a ribbon"});
        return facts;
    }
    const ReceptacleType& type = design.receptacle_types.at(port.ribbon->receptacle);
    const std::vector<Fact> more = ribbon_seat_facts(*port.ribbon, type, touch);
    facts.insert(facts.end(), more.begin(), more.end());
    if (!touch.touches) facts.push_back({"Fault", "laid as stated, the copper faces the plastic"});
    return facts;
}

std::string order_in_words(Order order, const RibbonView& view) {
    if (view.b.at_first.empty()) return std::string(name_of(order));
    return fmt::format("{}: conductor 1 joins contact {} at end a to contact {} at end b",
                       name_of(order), view.a.at_first, view.b.at_first);
}

std::vector<Fact> course_facts(const Design& design, std::size_t ribbon,
                               const std::optional<Seating>& seating, const RibbonView& view) {
    const Ribbon& cut = design.ribbons[ribbon];
    std::vector<Fact> facts;
    if (seating) facts.push_back({"Order", order_in_words(seating->order, view)});
    if (type_of(design, ribbon).kind == RibbonKind::round) return facts;
    facts.push_back(
        {"Lay", cut.lay ? in_words(*cut.lay) : "not stated; lead it so that the copper touches"});
    return facts;
}

}  // namespace

std::vector<std::string> seat_warnings(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends) {
    const std::string name = design.ribbons[ribbon].name;
    if (!ends.a && !ends.b) return {name + " is joined to nothing"};
    if (!ends.a || !ends.b) {
        return {fmt::format("{}.{} is joined to nothing", name, ends.a ? "b" : "a")};
    }
    const std::optional<Seating> seating = seating_of(design, ribbon, ends);
    if (!seating) {
        return {fmt::format("{} does not go into {} and {}: the parts are for another ribbon", name,
                            place_of(design, ends.a), place_of(design, ends.b))};
    }
    std::vector<std::string> warnings;
    if (!seating->touch_a || !seating->touch_b) {
        warnings.push_back(fmt::format("{}: the copper of end {} does not touch the contacts", name,
                                       seating->touch_a ? "b" : "a"));
    }
    if (seating->order == Order::either) {
        warnings.push_back(fmt::format(
            "SETTLE FIRST: {} goes in either way up, and that decides its order; this sheet takes "
            "it straight. Say in the design with 'touches' which row of contacts it is to meet",
            name));
    }
    return warnings;
}

TableRibbon table_ribbon(const Design& design, const RowReader& reader, std::size_t ribbon,
                         const RibbonEnds& ends) {
    const Ribbon& cut = design.ribbons[ribbon];
    const RibbonType& type = type_of(design, ribbon);
    const std::optional<Seating> seating = settled_seating(design, ribbon, ends);
    TableRibbon told;
    told.name = cut.name;
    told.from = place_of(design, ends.a);
    told.to = place_of(design, ends.b);
    told.buying = buying_facts(cut, type);
    told.source = one_line(type.source);
    told.view = view_of(design, ribbon, ends);
    Touch a{{}, true, told.view.a.copper};
    Touch b{{}, true, told.view.b.copper};
    if (seating) {
        a = {seating->side_a, seating->touch_a, told.view.a.copper};
        b = {seating->side_b, seating->touch_b, told.view.b.copper};
    }
    told.end_a = seat_facts(design, ends.a, a);
    told.end_b = seat_facts(design, ends.b, b);
    told.course = course_facts(design, ribbon, seating, told.view);
    told.rows = reader.ribbon_rows(ribbon, ends, seating);
    return told;
}

}  // namespace pinfold
