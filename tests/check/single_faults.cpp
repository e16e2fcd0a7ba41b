#include "check/single_faults.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// All designs and texts here: words we chose.
namespace pinfold {
namespace {

const HdmiLink good;

std::string with_lid(const Row& row) {
    HdmiLink link;
    link.lid = row;
    return link.yaml();
}

std::string with_more(const std::string& more, const std::string& devices = {}) {
    HdmiLink link;
    link.more = more;
    return with(link.yaml(), "devices:\n", "devices:\n" + devices);
}

const std::string wire = "gauge: AWG 28, length: 10 mm}\n";

}  // namespace

TEST_CASE("a swapped pair is one finding with both boards to mend it on") {
    const std::string yaml = with_lid(exchanged(good.lid, 15, 16));
    const Verdict verdict = verdict_of(yaml);
    REQUIRE(rules_of(verdict.findings) == Texts{"pair-swapped"});
    const Finding& finding = verdict.findings[0];
    CHECK(finding.text ==
          "the halves of pair D1 are exchanged: D1+ of logger.video.4 arrives at "
          "screen.video.6 (D1-)");
    CHECK(finding.places == Texts{"hdmi logger.video to screen.video", "D1+", "logger.video.4",
                                  "D1-", "logger.video.6", "D1"});
    CHECK(finding.at.line == 11);
    REQUIRE(finding.notes.size() == 1);
    CHECK(finding.notes[0].at.line == 16);
    CHECK(finding.notes[0].text == "it goes on here, on lid.tail.16");
    CHECK(finding.repairs == Texts{"exchange the halves of D1 in the list of base.tail",
                                   "exchange the halves of D1 in the list of lid.tail"});
}

TEST_CASE("each repair of a swapped pair makes the design clean once it is written down") {
    HdmiLink link;
    link.lid = exchanged(link.lid, 15, 16);
    HdmiLink base = link;
    base.base = exchanged(base.base, 5, 6);
    CHECK(rules_in(base.yaml()) == Texts{});
    CHECK(rules_in(with_lid(exchanged(link.lid, 15, 16))) == Texts{});
}

TEST_CASE("two swapped pairs are two findings") {
    const Verdict verdict = verdict_of(with_lid(exchanged(exchanged(good.lid, 2, 3), 5, 6)));
    REQUIRE(errors_of(verdict) == Texts{"pair-swapped", "pair-swapped"});
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(verdict.findings[1].repairs.size() == 2);
}

TEST_CASE("two pairs that change places are one finding") {
    HdmiLink link;
    link.lid = exchanged(exchanged(link.lid, 2, 5), 3, 6);
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"lanes-exchanged"});
    CHECK(verdict.findings[0].text ==
          "pairs D0 and CK are exchanged: each arrives where the other should");
    CHECK(verdict.findings[0].repairs == Texts{"exchange pairs D0 and CK in the list of base.tail",
                                               "exchange pairs D0 and CK in the list of lid.tail"});
    link.base = exchanged(exchanged(link.base, 15, 18), 16, 19);
    CHECK(rules_in(link.yaml()) == Texts{});
}

TEST_CASE("three pairs that change places are one finding") {
    Row lid = good.lid;  // D0 on 5 and 6, D1 on 15 and 16, D2 on 18 and 19 of the good list
    lid = exchanged(exchanged(lid, 5, 15), 6, 16);
    lid = exchanged(exchanged(lid, 15, 18), 16, 19);
    const Verdict verdict = verdict_of(with_lid(lid));
    REQUIRE(errors_of(verdict) == Texts{"lanes-exchanged"});
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(verdict.findings[0].text.starts_with("pairs D2, D"));
    CHECK(verdict.findings[0].text.ends_with(
        "have changed places: each arrives where the next should"));
}

TEST_CASE("pairs that change places and turn over are still one finding") {
    const auto [lid, text] = GENERATE(table<Row, std::string>({
        {exchanged(exchanged(good.lid, 2, 6), 3, 5), "D0 and CK"},
        {exchanged(exchanged(exchanged(good.lid, 2, 5), 3, 6), 2, 3), "CK"},
        {exchanged(exchanged(exchanged(good.lid, 2, 5), 3, 6), 5, 6), "D0"},
    }));
    const Verdict verdict = verdict_of(with_lid(lid));
    REQUIRE(errors_of(verdict) == Texts{"lanes-exchanged"});
    CHECK(verdict.findings[0].text ==
          "pairs D0 and CK are exchanged: each arrives where the other should; " + text +
              " with its halves exchanged too");
    CHECK(verdict.findings[0].repairs.size() == 2);
}

TEST_CASE("pairs that change places and another one swapped are two findings") {
    const Row lid = exchanged(exchanged(exchanged(good.lid, 2, 5), 3, 6), 15, 16);
    const Verdict verdict = verdict_of(with_lid(lid));
    REQUIRE(errors_of(verdict) == Texts{"lanes-exchanged", "pair-swapped"});
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(verdict.findings[1].repairs.size() == 2);
}

TEST_CASE("two single signals on each other's contact are one finding") {
    const Verdict verdict = verdict_of(with_lid(exchanged(good.lid, 10, 11)));
    REQUIRE(errors_of(verdict) == Texts{"signal-wrong"});
    CHECK(verdict.findings[0].text ==
          "5V and HPD are exchanged: each arrives on the other's contact");
    CHECK(verdict.findings[0].repairs == Texts{"exchange 5V and HPD in the list of base.tail",
                                               "exchange 5V and HPD in the list of lid.tail"});
}

TEST_CASE("three single signals that go round are one finding") {
    const Verdict verdict = verdict_of(with_lid(exchanged(exchanged(good.lid, 8, 12), 12, 13)));
    REQUIRE(errors_of(verdict) == Texts{"signal-wrong"});
    CHECK(verdict.findings[0].text.ends_with(
        "have changed places: each arrives on the next one's contact"));
    CHECK(verdict.findings[0].repairs.size() == 2);
}

TEST_CASE("no repair is offered that would split a pair on the ribbon") {
    // D2+ and D1+ exchanged on one board; exchanging them on the other would mend the signals.
    CHECK(found(verdict_of(with_lid(exchanged(good.lid, 19, 16))).findings, "signal-wrong")[0]
              .repairs == Texts{"exchange D2+ and D1+ in the list of lid.tail"});
    HdmiLink link;
    link.base = exchanged(link.base, 2, 5);
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"signal-wrong"});
    CHECK(verdict.findings[0].repairs == Texts{"exchange D2+ and D1+ in the list of base.tail"});
}

// USB 3: transmit of one end is receive of the other; tests/published/usb.cpp.
TEST_CASE("USB 3 wired name to name is one finding, and crossing either list mends it") {
    const Verdict verdict = verdict_of(usb(usb_named));
    REQUIRE(errors_of(verdict) == Texts{"counterpart-uncrossed"});
    CHECK(
        verdict.findings[0].text ==
        "host.usb and disk.usb are joined name to name, but USB 3 wants transmit to meet receive");
    CHECK(verdict.findings[0].repairs ==
          Texts{"exchange transmit and receive in the list of near.tail",
                "exchange transmit and receive in the list of far.tail"});
    CHECK(errors_of(verdict_of(usb(usb_crossed))) == Texts{});
}

TEST_CASE("USB Type-C from receptacle to receptacle wired name to name is one finding") {
    const Verdict verdict = verdict_of(usb_c(usb_c_named));
    REQUIRE(errors_of(verdict) == Texts{"counterpart-uncrossed"});
    CHECK(verdict.findings[0].text ==
          "host.usb and dock.usb are joined name to name, but USB "
          "Type-C wants transmit to meet receive");
    CHECK(verdict.findings[0].repairs.size() == 2);
    CHECK(errors_of(verdict_of(usb_c(usb_c_crossed))) == Texts{});
}

TEST_CASE("a signal shorted to ground, to its neighbour or to a third device is one finding") {
    const std::string ground = told(
        with_more("leads:\n  w: {from: base.plug.1, to: base.plug.2, " + wire), "signal-shorted");
    CHECK(ground ==
          "joined, though they are different signals: logger.video.1 (D2+), "
          "logger.video.2 (D2S), logger.video.5 (D1S), logger.video.8 (D0S), "
          "logger.video.11 (CKS), logger.video.17 (GND) and more");
    const std::string neighbour = told(
        with_more("leads:\n  w: {from: base.plug.1, to: base.plug.3, " + wire), "signal-shorted");
    CHECK(neighbour ==
          "joined, though they are different signals: logger.video.1 (D2+), "
          "logger.video.3 (D2-), screen.video.1 (D2+), screen.video.3 (D2-)");
    const std::string third =
        told(with_more("leads:\n  w: {from: siren.out.1, to: base.plug.D2+, " + wire,
                       "  siren: {ports: {out: {pads: [BELL]}}}\n"),
             "signal-shorted");
    CHECK(third ==
          "joined, though they are different signals: siren.out.1 (BELL), logger.video.1 "
          "(D2+), screen.video.1 (D2+)");
}

TEST_CASE("a short names six contacts and says that there are more only if there are") {
    const std::string yaml = pads("[SDA, SCL]", "[SDA, SCL]");
    const std::string shorted = with(yaml, "carry:",
                                     "  l2: {from: one.p.2, to: two.p.2, " + wire +
                                         "  l3: {from: one.p.1, to: one.p.2, " + wire + "carry:");
    CHECK(told(shorted, "signal-shorted") ==
          "joined, though they are different signals: one.p.1 (SDA), one.p.2 (SCL), two.p.1 (SDA), "
          "two.p.2 (SCL)");
}

TEST_CASE("a promise of which nothing arrives is one finding that says where it ends") {
    CHECK(
        told(with(good.yaml(), "- strap.b + lid.tail\n", ""), "link-open") ==
        "nothing of 'hdmi logger.video to screen.video' arrives: its 19 signals end at base.tail");
    CHECK(told(with(good.yaml(), "- lid.plug + screen.video\n", ""), "link-open") ==
          "nothing of 'hdmi logger.video to screen.video' arrives: its 19 signals end at lid.plug");
    CHECK(told(with(good.yaml(), "- logger.video + base.plug\n", ""), "link-open") ==
          "nothing of 'hdmi logger.video to screen.video' arrives: its 19 signals end at "
          "logger.video");
}

TEST_CASE("a signal the link can do without is a note if it is open, and nothing if left out") {
    Row lid = good.lid;
    lid[8] = "open";
    HdmiLink link;
    link.lid = lid;
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"optional-open"});
    CHECK(verdict.clean());
    CHECK(verdict.findings[0].text ==
          "UTIL of logger.video.14 does not arrive at screen.video.14: its way ends at lid.tail.9");
    link.carry += ", leave-out: [Utility]";
    CHECK(rules_in(link.yaml()) == Texts{});
}

TEST_CASE("a left-out signal may be open, but not joined to another one") {
    HdmiLink link;
    link.lid[7] = "open";
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{"signal-open"});
    link.carry += ", leave-out: [CEC]";
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{});
    link.lid[7] = "HPD";
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{"signal-shorted"});
}

TEST_CASE("one signal on another's contact is told from where to where") {
    HdmiLink link;
    link.lid[7] = "open";
    link.lid[8] = "CEC";
    CHECK(told(link.yaml(), "signal-wrong") ==
          "UTIL of logger.video.14 arrives at screen.video.13 (CEC) instead of screen.video.14 "
          "(UTIL)");
    CHECK(told(link.yaml(), "signal-open") ==
          "CEC of logger.video.13 does not arrive at screen.video.13: its way ends at lid.tail.8");
}

}  // namespace pinfold
