#include "document/table.hpp"

#include <catch2/catch.hpp>

#include "document/four_ways.hpp"

using namespace pinfold;

namespace {

WiringTable lid_link() {
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    return wiring_table(design, trace(design));
}

/// `2 D2+ [D2 +] base.tail.2 lid.tail.19`
std::string row_text(const TableRibbon& ribbon, std::size_t number) {
    const TableRow& row = ribbon.rows.at(number - 1);
    return fmt::format("{} {} [{}] {} {}", number, row.signal, mark_and_fault(row), row.from,
                       row.to);
}

std::string fact(const std::vector<Fact>& facts, const std::string& label) {
    for (const Fact& any : facts) {
        if (any.label == label) return any.text;
    }
    return "no such fact";
}

// A dock that feeds a lamp over two leads and one four-way ribbon. Invented.
const std::string lamp = R"(pinfold: 1
title: Lamp on a dock
devices:
  dock: {ports: {out: {pads: [5V, GND]}}}
  lamp: {ports: {in: {pads: [5V, GND]}}}
boards:
  near:
    ports:
      pads: {pads: [5V, GND]}
      tail: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, wired: [5V, open, open, GND]}
  far:
    ports:
      pads: {pads: [5V, GND]}
      tail: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, wired: [GND, open, open, 5V]}
ribbons:
  strap: {type: ffc-0.50, conductors: 4, length: 90 mm, copper: same-side}
joins:
- near.tail + strap.a
- strap.b + far.tail
leads:
  red: {from: dock.out.5V, to: near.pads.5V, gauge: AWG 24, colour: red, length: 80 mm}
  black: {from: dock.out.GND, to: near.pads.GND, gauge: 0.25 mm2, length: 80 mm}
  bridge: {from: far.pads.5V, to: lamp.in.5V, gauge: AWG 24, colour: red, length: 60 mm}
  back: {from: far.pads.GND, to: lamp.in.GND, gauge: AWG 24, colour: black, length: 60 mm}
carry:
- {supply: 5V, from: dock.out, to: lamp.in, voltage: 5 V, least: 4.5 V, current: 200 mA}
)";

}  // namespace

// The expected rows are read off examples/lid-link by hand: base contact k, lid contact 21 - k.
TEST_CASE("each conductor has its signal, both its contacts and its mark") {
    const TableRibbon strap = lid_link().ribbons.at(0);
    CHECK(strap.rows.size() == 20);
    CHECK(row_text(strap, 1) == "1 GND [guard D2] base.tail.1 lid.tail.20");
    CHECK(row_text(strap, 2) == "2 D2+ [D2 +] base.tail.2 lid.tail.19");
    CHECK(row_text(strap, 3) == "3 D2- [D2 -] base.tail.3 lid.tail.18");
    CHECK(row_text(strap, 4) == "4 GND [guard D2, D1] base.tail.4 lid.tail.17");
    CHECK(row_text(strap, 8) == "8 SDA [] base.tail.8 lid.tail.13");
    CHECK(row_text(strap, 10) == "10 5V [SUPPLY] base.tail.10 lid.tail.11");
    CHECK(row_text(strap, 20) == "20 GND [guard CK] base.tail.20 lid.tail.1");
}

TEST_CASE("a ribbon is bought by its words, and its figures name their source") {
    const TableRibbon strap = lid_link().ribbons.at(0);
    CHECK(fact(strap.buying, "Type") == "FFC, 0.5 mm pitch");
    CHECK(fact(strap.buying, "Pitch") == "0.5 mm");
    CHECK(fact(strap.buying, "Conductors") == "20");
    CHECK(fact(strap.buying, "Length") == "80 mm; a listed stock length");
    CHECK(fact(strap.buying, "Copper") == "bared copper on the same face at both ends");
    CHECK(fact(strap.buying, "Conductor") == "0.3 x 0.05 mm");
    CHECK(fact(strap.buying, "Width") == "10.5 mm over all");  // 0.5 mm * (20 + 1)
    CHECK(strap.source.find("from memory") != std::string::npos);
}

TEST_CASE("each end says where it goes and which way round") {
    const TableRibbon strap = lid_link().ribbons.at(0);
    CHECK(fact(strap.end_a, "Joined to") == "base.tail, J2");
    CHECK(fact(strap.end_a, "Receptacle") ==
          "FFC receptacle, 0.5 mm, right-angle, bottom contacts");
    CHECK(fact(strap.end_a, "Contacts") ==
          "bottom contacts: they touch the face towards the board");
    CHECK(fact(strap.end_a, "Contact 1") ==
          "on the left, looking into the mouth with the board below");
    CHECK(fact(strap.end_b, "Put it in") ==
          "copper towards the board; on a board that lies face up, the drawing turned over");
    CHECK(fact(strap.course, "Order") ==
          "mirrored: conductor 1 joins contact 1 at end a to contact 20 at end b");
    CHECK(fact(strap.course, "Lay") ==
          "straight; component side of the board at end a up, at end b up");
}

TEST_CASE("a design whose promises are kept has no loud line") {
    const WiringTable table = lid_link();
    CHECK(table.arrives);
    CHECK(table.warnings.empty());
    CHECK(table.file == "design.yaml");
    CHECK(
        table.promises ==
        std::vector<std::string>{
            "hdmi from logger.video to screen.video, 1.485 Gbit/s a lane: all 19 signals arrive"});
}

TEST_CASE("a promise that is not kept is told first, and in its rows") {
    std::string crossed = lamp;
    crossed.replace(crossed.find("[GND, open, open, 5V]"), 21, "[5V, open, open, GND]");
    const WiringTable table = table_of(crossed);
    CHECK_FALSE(table.arrives);
    CHECK(table.warnings.at(0) ==
          "DO NOT BUILD: 2 of 2 promised signals do not arrive; run pinfold check");
    CHECK(table.promises.at(0) ==
          "supply 5V from dock.out to lamp.in, 5 V, 0.2 A: 0 of 2 signals arrive");
    CHECK(row_text(table.ribbons.at(0), 1) == "1 5V [SUPPLY, FAULT: wrong] near.tail.1 far.tail.4");
}

TEST_CASE("leads have gauge, colour in words, length and both contacts") {
    const WiringTable table = table_of(lamp);
    REQUIRE(table.leads.size() == 4);
    const TableLead& red = table.leads[0];
    CHECK(red.name == "red");
    CHECK(red.gauge == "AWG 24");
    CHECK(red.colour == "red");
    CHECK(red.length == Millimetres(80));
    CHECK(red.row.from == "dock.out.1");
    CHECK(red.row.to == "near.pads.1");
    CHECK(red.row.mark == "SUPPLY");
    CHECK(table.leads[1].colour == "any");
    CHECK(table.leads[1].row.signal == "GND");
    CHECK(table.leads[1].row.mark == "ground");
}

TEST_CASE("whoever carries a supply is cautioned, and told where it runs") {
    const WiringTable table = table_of(lamp);
    REQUIRE(table.cautions.size() == 6);
    CHECK(table.cautions[0] ==
          "This wiring carries a supply: 5V on strap conductor 1, 5V on lead "
          "red, 5V on lead bridge");
    CHECK(table.cautions[1].find("No power while you assemble") == 0);
    CHECK(table.cautions[2].find("measure with a meter") != std::string::npos);
    CHECK(table.cautions[5].find("Local electrical codes") != std::string::npos);
    CHECK(table_of(four_ways({}, {}, "same-side")).cautions.empty());
}

TEST_CASE("a conductor without a promise bears the boards' name, or is open") {
    const TableRibbon strap = table_of(lamp).ribbons.at(0);
    CHECK(row_text(strap, 2) == "2 open [] near.tail.2 far.tail.3");
    CHECK(row_text(table_of(four_ways({}, {}, "same-side")).ribbons.at(0), 2) ==
          "2 X [] left.tail.2 right.tail.3");
}

TEST_CASE("a design that promises nothing proves nothing, and says so") {
    const WiringTable table = table_of(four_ways({}, {}, "same-side"));
    CHECK(table.warnings.at(0).find("NOTHING IS PROVED") == 0);
}

TEST_CASE("a loose end is told") {
    std::string loose = four_ways({}, {}, "same-side");
    loose.erase(loose.find("- strap.b"));
    const WiringTable table = table_of(loose);
    CHECK(table.warnings.at(1) == "strap.b is joined to nothing");
    CHECK(table.ribbons.at(0).rows.at(0).to == "not joined");
}

TEST_CASE("copper that looks away is told at its end") {
    std::string away = four_ways({}, {}, "same-side");
    away.replace(away.find("same-side"), 9, "opposite-side, lay: [straight]");
    const WiringTable table = table_of(away);
    CHECK(table.warnings.at(1) == "strap: the copper of end b does not touch the contacts");
    CHECK(fact(table.ribbons[0].end_b, "Put it in") == "no such fact");
    CHECK(table.ribbons[0].rows[0].to.find("(does not touch)") != std::string::npos);
}

TEST_CASE("an order left to the assembler is to be settled first") {
    const WiringTable table = table_of(four_ways({}, {"ffc-0.50-both", "left"}, "same-side"));
    CHECK(table.warnings.at(1).find("SETTLE FIRST: strap goes in either way up") == 0);
    CHECK(fact(table.ribbons[0].course, "Order") ==
          "straight: conductor 1 joins contact 1 at end a to contact 1 at end b");
    CHECK(table.ribbons[0].rows[0].to == "right.tail.1");
}

TEST_CASE("where several interfaces are carried, signals bear their port's name") {
    const WiringTable table = table_of(R"(pinfold: 1
title: Two wires, two promises
devices:
  one: {ports: {p: {pads: [VIN, GND]}, q: {pads: [3V3, GND]}}}
  two: {ports: {p: {pads: [VIN, GND]}, q: {pads: [3V3, GND]}}}
leads:
  w: {from: one.p.VIN, to: two.p.VIN, gauge: AWG 24, length: 80 mm}
  x: {from: one.q.3V3, to: two.q.3V3, gauge: AWG 24, length: 80 mm}
carry:
- {interface: plain, from: one.p, to: two.p}
- {interface: plain, from: one.q, to: two.q}
)");
    CHECK(table.leads.at(0).row.signal == "one.p.VIN");
    CHECK(table.leads.at(1).row.signal == "one.q.3V3");
}

TEST_CASE("a round ribbon tells of its sockets, not of copper faces") {
    const WiringTable table = table_of(R"(pinfold: 1
title: Ten round wires
boards:
  left: {ports: {pads: {pads: [A, B, C, D, E, F]}, tail: {receptacle: idc-2.54, positions: 6, first-contact: left, wired: [A, B, C, D, E, F]}}}
  right: {ports: {pads: {pads: [A, B, C, D, E, F]}, tail: {receptacle: idc-2.54, positions: 6, first-contact: left, wired: [A, B, C, D, E, F]}}}
ribbons:
  strap: {type: flat-1.27, conductors: 6, length: 90 mm, sockets: opposite-edge}
joins:
- left.tail + strap.a
- strap.b + right.tail
)");
    const TableRibbon& strap = table.ribbons.at(0);
    CHECK(fact(strap.buying, "Copper") == "no such fact");
    CHECK(fact(strap.buying, "Sockets") ==
          "contact 1 on the marked edge at end a, on the far edge at end b");
    CHECK(strap.rows[0].to == "right.tail.6");
    CHECK(strap.view.a.copper == CopperView::sockets);
}
