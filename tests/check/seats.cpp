#include "check/seats.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// All designs and texts here: words we chose.
namespace pinfold {
namespace {

const HdmiLink good;

std::string but(std::string HdmiLink::*field, const char* value) {
    HdmiLink link;
    link.*field = value;
    return link.yaml();
}

}  // namespace

TEST_CASE("parts that do not go into each other are told at the join") {
    const std::string plugs = but(&HdmiLink::screen, "hdmi-a plug");
    CHECK(told(plugs, "gender-misfit") == "lid.plug and screen.video are both plugs");
    CHECK(found(verdict_of(plugs).findings, "gender-misfit")[0].places ==
          Texts{"lid.plug", "screen.video"});
    CHECK(told(but(&HdmiLink::screen, "hdmi-c receptacle"), "body-misfit") ==
          "lid.plug is hdmi-a, screen.video is hdmi-c: they do not go together");
    const std::string pads =
        with(good.yaml(), "- lid.plug + screen.video", "- lid.plug + box.pads");
    CHECK(told(with(pads, "devices:\n", "devices:\n  box: {ports: {pads: {pads: [GND]}}}\n"),
               "gender-misfit") ==
          "box.pads is no connector that a plug goes into; join its pads with leads");
}

TEST_CASE("a ribbon in a part that takes none, or another kind, is told at the seat") {
    CHECK(told(with(with(good.yaml(), "- strap.b + lid.tail\n", "- strap.b + lid.plug\n"),
                    "- lid.plug + screen.video\n", ""),
               "gender-misfit") == "lid.plug does not take a ribbon");
    HdmiLink round;
    round.ribbon = "type: flat-1.27, conductors: 20, length: 120 mm, sockets: same-edge";
    round.lay = "";
    const Findings some = found(verdict_of(round.yaml()).findings, "gender-misfit");
    REQUIRE(some.size() == 2);
    CHECK(some[0].text == "base.tail takes flat ribbons, strap is round");
}

TEST_CASE("pitch, width and thickness of the ribbon's end are held against the receptacle") {
    const Findings pitch = found(
        verdict_of(with(good.yaml(), "ffc-0.50, con", "ffc-1.00, con")).findings, "pitch-misfit");
    REQUIRE(pitch.size() == 2);
    CHECK(pitch[0].text == "strap has a pitch of 1 mm, base.tail takes 0.5 mm");
    CHECK(told(but(&HdmiLink::lid_mouth, "receptacle: thin-0.50, first-contact: left"),
               "end-thickness-misfit") ==
          "the end of strap is 0.3 mm thick, lid.tail takes 0.13 to 0.23 mm");
}

TEST_CASE("a ribbon end that hangs loose is told") {
    CHECK(told(with(good.yaml(), "- strap.b + lid.tail\n", ""), "ribbon-loose") ==
          "strap.b is joined to nothing");
}

TEST_CASE("without a lay the check says how the boards must lie") {
    CHECK(told(but(&HdmiLink::lay, ""), "lay-unknown") ==
          "strap touches at both ends only if the boards lie for it: laid flat and straight, both "
          "boards face the same way; give 'lay' and 'faces' to have it proved");
    HdmiLink turned;
    turned.lay = "";
    turned.ribbon = with(turned.ribbon, "same-side", "opposite-side");
    CHECK_THAT(told(turned.yaml(), "lay-unknown"),
               Catch::Matchers::Contains("one board faces up and the other down"));
}

TEST_CASE("a choice of two orders is an error where only one keeps the promises") {
    const Verdict verdict = verdict_of(either("[GND, SDA, SCL, CEC]"));
    REQUIRE(errors_of(verdict) == Texts{"either-way-up"});
    CHECK(verdict.findings[0].repairs ==
          Texts{"write {join: two.p + strap.b, touches: top} and put it in so"});
    CHECK(errors_of(verdict_of(
              either("[GND, SDA, SCL, CEC]", "{join: two.p + strap.b, touches: top}"))) == Texts{});
    CHECK(errors_of(verdict_of(
              either("[GND, SDA, SCL, CEC]", "{join: two.p + strap.b, touches: bottom}"))) ==
          Texts{"order-mirrored"});
    const Verdict even = verdict_of(either("[SDA, SCL, SCL, SDA]"));
    CHECK(even.clean());
    CHECK(found(even.findings, "either-way-up").at(0).severity == Severity::warning);
}

}  // namespace pinfold
