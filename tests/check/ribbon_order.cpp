#include "check/ribbon_order.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// All designs and texts here: words we chose. Withstood voltages: pinmaps/interfaces/hdmi.yaml (CEC
// 3.63 V, HPD and UTIL 5.3 V, SCL and SDA 5.5 V; the supply is 5.3 V at most).
namespace pinfold {
namespace {

const HdmiLink good;

/// The link with both lists changed alike, so that every signal still arrives.
HdmiLink ordered(const Row& base) {
    HdmiLink link;
    link.base = base;
    link.lid = reversed(base);
    return link;
}

Texts texts(const std::string& yaml, const std::string& rule) {
    Texts some;
    for (const Finding& finding : found(verdict_of(yaml).findings, rule)) {
        some.push_back(finding.text);
    }
    return some;
}

Texts hazards(const Row& base, const std::string& carry = "rate: 1.485 Gbit/s") {
    HdmiLink link = ordered(base);
    link.carry = carry;
    return texts(link.yaml(), "mirror-hazard");
}

/// The good row with 5 V and what lies around it replaced: contacts 8 to 13.
Row around(std::initializer_list<const char*> middle) {
    Row row = good.base;
    std::size_t at = 7;
    for (const char* entry : middle) row.at(at++) = entry;
    return row;
}

}  // namespace

TEST_CASE("a pair whose halves are not neighbours is split, with a note at the other half") {
    const Verdict verdict = verdict_of(ordered(exchanged(good.base, 3, 4)).yaml());
    const Findings split = found(verdict.findings, "pair-split");
    REQUIRE(split.size() == 1);
    CHECK(split[0].text == "pair D2 is split: its halves lie on conductors 2 and 4 of strap");
    CHECK(split[0].severity == Severity::error);
    CHECK(split[0].places ==
          Texts{"strap", "strap.2", "strap.4", "D2", "hdmi logger.video to screen.video"});
    CHECK(split[0].notes.size() == 1);
    CHECK(errors_of(verdict) == Texts{"pair-split"});
}

TEST_CASE("a slow pair may be split: a warning") {
    std::string yaml = boxes("open");
    for (int i = 0; i < 2; ++i) yaml = with(yaml, "AUX+, AUX-, GND", "AUX+, GND, AUX-");
    const Verdict verdict = verdict_of(yaml);
    CHECK(errors_of(verdict) == Texts{});
    CHECK(told(yaml, "pair-split") ==
          "pair AUX is split: its halves lie on conductors 14 and 16 of strap");
}

TEST_CASE("a pair with no ground beside it is told once, with what lies there instead") {
    CHECK(texts(ordered(exchanged(good.base, 1, 13)).yaml(), "pair-unguarded") ==
          Texts{"pair D2 on conductors 2 and 3 of strap has no guard on one side: conductor 1 "
                "(CEC)"});
    Row both = exchanged(exchanged(good.base, 1, 13), 4, 12);
    const Texts all = texts(ordered(both).yaml(), "pair-unguarded");
    REQUIRE(all.size() == 2);
    CHECK(all[0] ==
          "pair D2 on conductors 2 and 3 of strap has no guard on either side: conductor "
          "1 (CEC) and conductor 4 (UTIL)");
    CHECK(all[1] ==
          "pair D1 on conductors 5 and 6 of strap has no guard on one side: conductor 4 "
          "(UTIL)");
}

TEST_CASE("the ribbon's edge is no guard, and an open conductor is none either") {
    Row edge = good.base;
    edge.erase(edge.begin());  // D2 at the edge
    edge.insert(edge.begin() + 8, "GND");
    CHECK(texts(ordered(edge).yaml(), "pair-unguarded") ==
          Texts{"pair D2 on conductors 1 and 2 of strap has no guard on one side: the ribbon's "
                "edge"});
    Row open = good.base;
    open[0] = "open";
    CHECK(texts(ordered(open).yaml(), "pair-unguarded") ==
          Texts{"pair D2 on conductors 2 and 3 of strap has no guard on one side: conductor 1 "
                "(open)"});
}

TEST_CASE("a supply or a clock beside a pair is told as that") {
    CHECK(texts(ordered(exchanged(good.base, 7, 10)).yaml(), "supply-beside-pair") ==
          Texts{"5V on conductor 7 lies beside pair D1 on conductors 5 and 6 of strap"});
    CHECK(texts(ordered(exchanged(good.base, 7, 9)).yaml(), "clock-beside-pair") ==
          Texts{"SCL on conductor 7 lies beside pair D1 on conductors 5 and 6 of strap"});
    // The clock pair itself beside a data pair, no ground between them.
    const Texts pairs =
        texts(ordered(exchanged(exchanged(good.base, 17, 19), 17, 18)).yaml(), "clock-beside-pair");
    REQUIRE(pairs.size() == 1);
    CHECK(pairs[0].ends_with("lies beside pair D0 on conductors 15 and 16 of strap"));
}

TEST_CASE("fewer grounds than fast pairs is a warning, none at all an error") {
    Row few = good.base;
    for (const std::size_t at : {0u, 13u, 19u}) few[at] = "open";
    CHECK(told(ordered(few).yaml(), "grounds-few") ==
          "strap carries 4 fast pairs and 3 ground conductors; a ground for each pair and one more "
          "lets every pair lie between two");
    for (const std::size_t at : {3u, 6u, 16u}) few[at] = "open";
    const Verdict verdict = verdict_of(ordered(few).yaml());
    CHECK(found(verdict.findings, "grounds-few").at(0).severity == Severity::error);
}

TEST_CASE("a guard that is open at one end is told with the contact, whichever end it is") {
    const bool at_base = GENERATE(true, false);
    HdmiLink link;
    (at_base ? link.base : link.lid)[3] = "open";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"guard-one-end"});
    const std::string text = at_base
                                 ? "ground conductor 4 of strap is wired to nothing at base.tail.4"
                                 : "ground conductor 17 of strap is wired to nothing at lid.tail.4";
    CHECK(verdict.findings[0].text == text);
    CHECK(verdict.clean());
}

TEST_CASE("a conductor wired to nothing at both ends is no guard and no finding of its own") {
    Row row = good.base;
    row[0] = "open";
    CHECK(texts(ordered(row).yaml(), "guard-one-end") == Texts{});
}

TEST_CASE("a signal of a finished board that has only a name is wired to something") {
    const std::string yaml = with(header("[A, B, C, D, E, GND, F, GND]"),
                                  "interface: hdmi, signals: [SDA, SCL, CEC, UTIL, HPD, 5V",
                                  "signals: [5V, SCL, CEC, UTIL, HPD, SDA");
    const std::string fed = with(yaml,
                                 "{interface: hdmi, from: gauge.io, to: panel.io, rate: 1 "
                                 "Gbit/s}",
                                 "{supply: 5V, from: gauge.io, to: panel.io, voltage: 5 V, "
                                 "least: 4 V, current: 0.1 A}");
    // Conductor 6 is ground at the carrier and SDA at the gauge.
    CHECK(texts(fed, "guard-one-end") == Texts{});
    CHECK(texts(with(fed, "HPD, SDA, GND", "HPD, open, GND"), "guard-one-end").size() == 1);
}

TEST_CASE("5 V among signals that stand 5 V does no harm, reversed or one place off") {
    CHECK(hazards(good.base) == Texts{});
    CHECK(hazards(around({"SDA", "SCL", "HPD", "5V", "UTIL", "CEC"})) == Texts{});
}

TEST_CASE("5 V beside CEC or a ground is a hazard one place off") {
    CHECK(hazards(around({"SDA", "SCL", "HPD", "UTIL", "5V", "CEC"})) ==
          Texts{"were strap put one place off: 5V (conductor 12) would meet CEC (conductor 13)"});
    CHECK(hazards(around({"5V", "SCL", "SDA", "HPD", "UTIL", "CEC"})) ==
          Texts{"were strap put in reversed: 5V (conductor 8) would meet CEC (conductor 13)",
                "were strap put one place off: 5V (conductor 8) would meet GND (conductor 7)"});
}

TEST_CASE("5 V opposite a ground or CEC is a hazard put in reversed") {
    CHECK(hazards(exchanged(good.base, 10, 14)) ==
          Texts{"were strap put in reversed: 5V (conductor 14) would meet GND (conductor 7)",
                "were strap put one place off: 5V (conductor 14) would meet D0+ (conductor 15); 5V "
                "(conductor 14) would meet CEC (conductor 13)"});
}

TEST_CASE("what a signal stands is held against the voltage the promise states") {
    CHECK(hazards(good.base, "rate: 1 Gbit/s, voltage: 5.3 V") == Texts{});
    CHECK(hazards(good.base, "rate: 1 Gbit/s, voltage: 5.4 V") ==
          Texts{"were strap put in reversed: 5V (conductor 10) would meet HPD (conductor 11)",
                "were strap put one place off: 5V (conductor 10) would meet HPD (conductor 11)"});
}

TEST_CASE("two conductors of one supply side by side are no hazard to each other") {
    const std::string strap =
        "type: ffc-1.00, conductors: 15, length: 100 mm, copper: opposite-side";
    const Texts all = texts(direct("dsi-15", "ffc-1.00-bottom", strap,
                                   "interface: dsi, rate: 1 Gbit/s, current: 0.2 A"),
                            "mirror-hazard");
    CHECK(all == Texts{"were strap put in reversed: 3V3 (conductor 14) would meet D1- (conductor "
                       "2); 3V3 (conductor 15) would meet GND (conductor 1)",
                       "were strap put one place off: 3V3 (conductor 14) would meet GND (conductor "
                       "13)"});
}

TEST_CASE("a supply that no promise speaks of is a hazard all the same") {
    // DP_PWR carried on by one board only: nothing is joined to it, but it is there.
    const std::string yaml = with(boxes("open"), "RETURN, open, GND", "RETURN, DP_PWR, GND");
    CHECK(texts(yaml, "mirror-hazard").size() == 2);
}

}  // namespace pinfold
