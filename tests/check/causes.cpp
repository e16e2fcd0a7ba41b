#include "check/causes.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// All designs and texts here: words we chose. Repairs are applied by hand to the text of the
// design.
namespace pinfold {
namespace {

std::vector<std::string> repairs_of(const std::string& yaml, const std::string& rule) {
    const Findings some = found(verdict_of(yaml).findings, rule);
    return some.size() == 1 ? some[0].repairs : Texts{fmt::format("{} findings", some.size())};
}

const HdmiLink good;

}  // namespace

TEST_CASE("the good link is clean to the last note") { CHECK(rules_in(good.yaml()) == Texts{}); }

TEST_CASE("a ribbon in mirrored order is one finding, at the ribbon, with both ends noted") {
    HdmiLink link;
    link.ribbon = with(link.ribbon, "same-side", "opposite-side");
    link.lay = ", lay: [straight], faces: {a: up, b: down}";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"order-mirrored"});
    const Finding& finding = verdict.findings[0];
    CHECK(
        finding.text ==
        "strap joins contact 1 of base.tail to contact 1 of lid.tail, but the lists of the boards "
        "agree only if it meets contact 20: the order is the wrong way round");
    CHECK(finding.places == Texts{"strap", "base.tail", "lid.tail"});
    CHECK(finding.notes.size() == 2);
    CHECK(finding.at.line == 18);
    CHECK(finding.repairs ==
          Texts{"write the list of base.tail the other way round, last contact first",
                "write the list of lid.tail the other way round, last contact first"});
}

TEST_CASE("each repair of a mirrored ribbon makes the design clean once it is written down") {
    HdmiLink link;
    link.ribbon = with(link.ribbon, "same-side", "opposite-side");
    link.lay = ", lay: [straight], faces: {a: up, b: down}";
    HdmiLink base = link;
    base.base = reversed(base.base);
    HdmiLink lid = link;
    lid.lid = reversed(lid.lid);
    CHECK(errors_of(verdict_of(base.yaml())) == Texts{});
    CHECK(errors_of(verdict_of(lid.yaml())) == Texts{});
}

TEST_CASE("without a lay the other ribbon and the other receptacle mend a mirrored order too") {
    HdmiLink link;
    link.lid = link.base;
    link.lay = "";
    CHECK(repairs_of(link.yaml(), "order-mirrored") ==
          Texts{"take a ribbon with opposite-side copper for strap",
                "take a receptacle with top contacts at base.tail",
                "write the list of base.tail the other way round, last contact first",
                "take a receptacle with top contacts at lid.tail",
                "write the list of lid.tail the other way round, last contact first"});

    HdmiLink ribbon = link;
    ribbon.ribbon = with(link.ribbon, "same-side", "opposite-side");
    HdmiLink base = link;
    base.base_mouth = with(link.base_mouth, "bottom", "top");
    HdmiLink lid = link;
    lid.lid_mouth = with(link.lid_mouth, "bottom", "top");
    HdmiLink list = link;
    list.base = reversed(link.base);
    for (const HdmiLink& mended : {ribbon, base, lid, list}) {
        CHECK(errors_of(verdict_of(mended.yaml())) == Texts{});
    }
}

TEST_CASE("a list one place off is one finding, whichever way and on whichever board") {
    const int shift = GENERATE(1, -1);
    const bool on_lid = GENERATE(true, false);
    CAPTURE(shift, on_lid);
    HdmiLink link;
    Row& row = on_lid ? link.lid : link.base;
    row = moved(row, shift);
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"order-shifted"});
    CHECK(verdict.findings[0].text ==
          "the contact lists of base.tail and lid.tail are one place apart: every signal of strap "
          "arrives beside its own contact");
    const std::string way = (shift > 0) == on_lid ? "first" : "last";
    const std::string other = shift > 0 ? "first" : "last";
    CHECK(verdict.findings[0].repairs ==
          Texts{"move the list of base.tail one place towards the " + other + " contact",
                "move the list of lid.tail one place towards the " + other + " contact"});
}

TEST_CASE("each repair of a list one place off makes the design clean once it is written down") {
    HdmiLink link;
    link.lid = moved(link.lid, 1);
    HdmiLink base = link;
    base.base = moved(base.base, -1);
    HdmiLink lid = link;
    lid.lid = moved(lid.lid, -1);
    CHECK(errors_of(verdict_of(base.yaml())) == Texts{});
    CHECK(errors_of(verdict_of(lid.yaml())) == Texts{});
}

// HDMI Specification 1.4: the contact orders of types A, C and D differ (tests/published/hdmi.cpp).
TEST_CASE("a connector wired in the order of another HDMI type is one finding") {
    const auto [written, meant] = GENERATE(table<std::string, std::string>({{"hdmi-a", "hdmi-c"},
                                                                            {"hdmi-a", "hdmi-d"},
                                                                            {"hdmi-c", "hdmi-a"},
                                                                            {"hdmi-d", "hdmi-a"},
                                                                            {"hdmi-c", "hdmi-d"},
                                                                            {"hdmi-d", "hdmi-c"}}));
    CAPTURE(written, meant);
    Library library = shipped_library();
    HdmiLink link;
    link.screen = meant + " receptacle";
    Row wired;  // each contact of the plug wired to the signal that `written` has there
    for (const Contact& contact : library.connector(written, Mark{}).contacts) {
        const std::string name = library.interface("hdmi", Mark{}).signals[*contact.signal].name;
        wired.push_back(name.ends_with('S') ? "GND" : name);
    }
    link.lid_plug = "{connector: " + meant + " plug, wired: " + listed(wired) + "}";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"connector-order"});
    CHECK(verdict.findings[0].text ==
          fmt::format("lid.plug is wired in the contact order of {}, but it goes into "
                      "screen.video, which is {}",
                      written, meant));
    CHECK(verdict.findings[0].repairs == Texts{"wire lid.plug in the contact order of " + meant});

    HdmiLink mended = link;
    mended.lid_plug = meant + " plug";
    CHECK(errors_of(verdict_of(mended.yaml())) == Texts{});
}

// VESA DisplayPort: the sink's contacts 1 to 12 are those of the source reversed.
TEST_CASE("a DisplayPort sink plug drawn with the source's table is one finding") {
    const std::string yaml = boxes("open", "displayport-source");
    const Verdict verdict = verdict_of(yaml);
    REQUIRE(errors_of(verdict) == Texts{"connector-order"});
    CHECK(verdict.findings[0].text ==
          "far.plug is wired in the contact order of displayport-source, but it goes into two.dp, "
          "which is displayport-sink");
    CHECK(verdict.findings[0].repairs ==
          Texts{"wire far.plug in the contact order of displayport-sink"});
    CHECK(errors_of(verdict_of(boxes("open"))) == Texts{});
}

TEST_CASE("a mini DisplayPort sink plug drawn with the source's table is one finding") {
    const std::string sink = "mini-displayport-sink";
    const Verdict verdict = verdict_of(boxes("open", "mini-displayport-source", sink));
    CHECK(errors_of(verdict) == Texts{"connector-order"});
    CHECK(errors_of(verdict_of(boxes("open", sink, sink))) == Texts{});
}

TEST_CASE("a header wired as if it stood on the other side of the board has its rows exchanged") {
    const std::string bad = header("[B, A, D, C, F, E, GND, GND]");
    const Verdict verdict = verdict_of(bad);
    REQUIRE(errors_of(verdict) == Texts{"rows-exchanged"});
    CHECK(verdict.findings[0].text ==
          "the two rows of carrier.box are exchanged: odd and even contacts have changed places");
    CHECK(verdict.findings[0].repairs == Texts{"exchange odd and even contacts of carrier.box"});
    CHECK(errors_of(verdict_of(header("[A, B, C, D, E, F, GND, GND]"))) == Texts{});
}

TEST_CASE("sockets crimped with contact 1 on opposite edges mirror the order") {
    const std::string bad = header("[A, B, C, D, E, F, GND, GND]", "opposite-edge");
    const Verdict verdict = verdict_of(bad);
    REQUIRE(errors_of(verdict) == Texts{"order-mirrored"});
    CHECK(verdict.findings[0].repairs ==
          Texts{"crimp the sockets of flat with contact 1 on the same edge",
                "write the list of carrier.box the other way round, last contact first"});
    CHECK(errors_of(verdict_of(header("[GND, GND, F, E, D, C, B, A]", "opposite-edge"))) ==
          Texts{});
}

// USB Type-C: the plug goes in either way up, and the port finds the first lane in either row.
TEST_CASE("a Type-C plug may be put in either way up") {
    CHECK(errors_of(verdict_of(usb_c(usb_c_crossed, "flipped"))) == Texts{});
    CHECK(errors_of(verdict_of(usb_c(usb_c_crossed))) == Texts{});
}

TEST_CASE("of a mirrored ribbon and a swapped pair each is told with repairs of its own") {
    HdmiLink link;
    link.lid = exchanged(link.base, 5, 6);
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"order-mirrored", "pair-swapped"});
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(verdict.findings[1].repairs ==
          Texts{"exchange the halves of D1 in the list of base.tail",
                "exchange the halves of D1 in the list of lid.tail"});

    HdmiLink turned = link;
    turned.lid = reversed(link.lid);
    CHECK(errors_of(verdict_of(turned.yaml())) == Texts{"pair-swapped"});
    turned.base = exchanged(turned.base, 5, 6);
    CHECK(errors_of(verdict_of(turned.yaml())) == Texts{});
}

TEST_CASE("of a list one place off and a swapped pair each is told with repairs of its own") {
    const int shift = GENERATE(1, -1);
    const std::size_t first = GENERATE(2u, 5u, 15u, 18u);
    CAPTURE(shift, first);
    HdmiLink link;
    link.lid = moved(exchanged(link.lid, first, first + 1), shift);
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"order-shifted", "pair-swapped"});
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(verdict.findings[1].repairs.size() == 2);

    link.lid = moved(link.lid, -shift);
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{"pair-swapped"});
    link.lid = exchanged(link.lid, first, first + 1);
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{});
}

TEST_CASE("copper that faces away is told alone, with the changes that turn it round") {
    HdmiLink link;
    link.lay = ", lay: [straight], faces: {a: up, b: down}";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"copper-away"});
    CHECK(verdict.findings[0].text ==
          "with its copper on the contacts of base.tail, strap turns its copper away from the "
          "contacts of lid.tail: every conductor is open there");
    CHECK(verdict.findings[0].repairs ==
          Texts{"give strap a half twist", "turn the board at strap.b over (faces: b: up)"});

    HdmiLink twisted = link;
    twisted.lay = ", lay: [straight, half-twist], faces: {a: up, b: down}";
    CHECK(rules_in(twisted.yaml()) == Texts{});
    CHECK(rules_in(good.yaml()) == Texts{});
}

TEST_CASE("copper that faces away in the wrong order has the one repair that mends both") {
    HdmiLink link;
    link.lid = link.base;
    link.lay = ", lay: [straight], faces: {a: up, b: down}";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"copper-away"});
    const Texts repairs = verdict.findings[0].repairs;
    CHECK(std::ranges::count(repairs, "take a ribbon with opposite-side copper for strap") == 1);
    link.ribbon = with(link.ribbon, "same-side", "opposite-side");
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{});
}

TEST_CASE("copper that faces away keeps its repairs when a pair is swapped besides") {
    HdmiLink link;
    link.lid = exchanged(link.lid, 15, 16);
    link.lay = ", lay: [straight], faces: {a: up, b: down}";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"copper-away", "pair-swapped"});
    CHECK(verdict.findings[0].repairs ==
          Texts{"give strap a half twist", "turn the board at strap.b over (faces: b: up)"});
}

TEST_CASE("a narrow ribbon is told once at each end and not contact by contact") {
    const std::string yaml = with(good.yaml(), "conductors: 20", "conductors: 18");
    const Verdict verdict = verdict_of(yaml);
    CHECK(errors_of(verdict) == Texts{"positions-misfit", "positions-misfit"});
    CHECK(verdict.findings[0].text ==
          "strap has 18 conductors, base.tail has 20 contacts: the ribbon can slip sideways");
}

TEST_CASE("a mirrored ribbon between two finished boards is one finding") {
    const std::string promise = "interface: dsi, rate: 1 Gbit/s, current: 0.2 A";
    const auto strap = [](const std::string& copper, const std::string& lay) {
        return "type: ffc-1.00, conductors: 15, length: 100 mm, copper: " + copper + lay;
    };
    const std::string same = direct("dsi-15", "ffc-1.00-bottom", strap("same-side", ""), promise);
    const Verdict verdict = verdict_of(same);
    REQUIRE(errors_of(verdict) == Texts{"order-mirrored"});
    CHECK(verdict.findings[0].repairs ==
          Texts{"take a ribbon with opposite-side copper for strap"});
    const std::string opposite =
        direct("dsi-15", "ffc-1.00-bottom", strap("opposite-side", ""), promise);
    CHECK(errors_of(verdict_of(opposite)) == Texts{});

    // With the boards fixed in space no single change mends it, and none is offered.
    const std::string fixed =
        direct("dsi-15", "ffc-1.00-bottom",
               strap("same-side", ", lay: [straight], faces: {a: up, b: up}"), promise);
    CHECK(repairs_of(fixed, "order-mirrored") == Texts{});
}

}  // namespace pinfold
