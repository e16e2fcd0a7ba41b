#include "exchange/check_json.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "design/read.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

const char* lamp = R"(pinfold: 1
title: Lamp on a lead
devices:
  box: {ports: {out: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}
  lamp: {ports: {cord: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}
leads:
  red: {from: box.out.1, to: lamp.cord.1, gauge: AWG 24, length: 300 mm, colour: red}
  black: {from: box.out.4, to: lamp.cord.4, gauge: AWG 24, length: 300 mm, colour: black}
carry:
- {supply: VBUS, from: box.out, to: lamp.cord, voltage: 5 V, current: 200 mA, least: 4.5 V}
)";

Design lamp_design() {
    Library library = shipped_library();
    return read_design(text_source(lamp), ".", library);
}

}  // namespace

TEST_CASE("a verdict as JSON has the keys that were promised, in their order") {
    const Design design = lamp_design();
    Findings findings{{Severity::warning, "supply-drop", "say \"so\"", {text_source(lamp), 7, 3}}};
    findings[0].notes = {{{text_source(lamp), 9, 1}, "promised here"}, {{}, "nowhere"}};
    findings[0].repairs = {"a thicker lead"};
    findings[0].places = {"red"};
    const std::string text = check_json(design, Verdict{findings, trace(design)});
    CHECK(text == R"({
  "schema": "pinfold-check/1",
  "design": "input",
  "clean": true,
  "findings": [
    {
      "rule": "supply-drop",
      "severity": "warning",
      "text": "say \"so\"",
      "file": "input",
      "line": 7,
      "column": 3,
      "notes": [
        {
          "text": "promised here",
          "file": "input",
          "line": 9,
          "column": 1
        },
        {
          "text": "nowhere",
          "file": null,
          "line": null,
          "column": null
        }
      ],
      "repairs": [
        "a thicker lead"
      ],
      "places": [
        "red"
      ]
    }
  ],
  "passes": [
    {
      "carry": "VBUS box.out to lamp.cord",
      "signal": "VBUS",
      "from": "box.out.1",
      "to": "lamp.cord.1",
      "reached": "lamp.cord.1",
      "state": "good",
      "hops": [
        "box.out.1",
        "lamp.cord.1"
      ]
    },
    {
      "carry": "VBUS box.out to lamp.cord",
      "signal": "GND",
      "from": "box.out.4",
      "to": "lamp.cord.4",
      "reached": "lamp.cord.4",
      "state": "good",
      "hops": [
        "box.out.4",
        "lamp.cord.4"
      ]
    }
  ]
}
)");
}

TEST_CASE("a signal that arrives nowhere has reached null, and an error is not clean") {
    Design design = lamp_design();
    design.leads.clear();
    const Findings findings{{Severity::error, "link-open", "open", {}}};
    const auto json =
        nlohmann::ordered_json::parse(check_json(design, Verdict{findings, trace(design)}));
    CHECK(json["clean"] == false);
    CHECK(json["findings"][0]["file"].is_null());
    CHECK(json["findings"][0]["notes"].empty());
    CHECK(json["passes"][0]["reached"].is_null());
    CHECK(json["passes"][0]["state"] == "open");
}

// By hand: HDMI A contact 1 is D2+ (HDMI Specification 1.4); a straight same-side ribbon between
// two receptacles of one kind comes out mirrored, so conductor 2 meets contact 19 of 20.
TEST_CASE("the hops of a pass are contacts and conductor ends, without the nets between") {
    Library library = shipped_library();
    const Design design =
        read_design(repository() / "examples" / "lid-link" / "design.yaml", library);
    const auto json = nlohmann::ordered_json::parse(check_json(design, Verdict{{}, trace(design)}));
    const auto pass = json["passes"][0];
    CHECK(pass["signal"] == "D2+");
    CHECK(pass["hops"] == nlohmann::ordered_json{"logger.video.1", "base.plug.1", "base.tail.2",
                                                 "strap.a.2", "strap.b.2", "lid.tail.19",
                                                 "lid.plug.1", "screen.video.1"});
}

TEST_CASE("bytes that are not UTF-8 do not stop a verdict") {
    const Design design = lamp_design();
    const Findings findings{{Severity::note, "x", "bad \xff", {}}};
    const auto json =
        nlohmann::ordered_json::parse(check_json(design, Verdict{findings, trace(design)}));
    CHECK(json["findings"][0]["text"] == "bad \xEF\xBF\xBD");
}
