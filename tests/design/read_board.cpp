#include <catch2/catch.hpp>

#include "design/told.hpp"

namespace pinfold {
namespace {

std::string refused(const std::string& text) {
    return complaint([&] {
        Library library = shipped_library();
        Design design;
        read_board(text_source(text), "it", design, library);
    });
}

std::string board(const std::string& ports) { return "pinfold-board: 1\nports:\n" + ports; }

bool starts(const std::string& text, const std::string& start) { return text.find(start) == 0; }

const std::string tail =
    "  tail: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, "
    "wired: [A, B, A, B]}\n";

}  // namespace

// Scenarios: invented. Expected texts: words we chose.
TEST_CASE("a board file says what it is") {
    CHECK(refused("title: x\nports: {}\n") ==
          "input:1:1: error: 'pinfold-board' is missing [yaml-field-missing]\n"
          "    title: x\n"
          "    ^\n");
    CHECK(starts(refused("pinfold-board: 2\nports: {}\n"),
                 "input:1:16: error: 'pinfold-board: 2': this program reads version 1 "
                 "[file-version]\n"));
    CHECK(starts(refused("pinfold-board: 1\n"), "input:1:1: error: 'ports' is missing"));
    CHECK(refused(board(tail)) == "no complaint");
}

TEST_CASE("a port is a connector or a receptacle or pads") {
    CHECK(refused(board("  p: {reference: J1, wired: []}\n")) ==
          "input:3:3: error: a port needs 'connector', 'receptacle' or 'pads' [port-kind]\n"
          "      p: {reference: J1, wired: []}\n"
          "      ^\n");
    CHECK(starts(refused(board("  p:\n")),
                 "input:4:1: error: expected a map of named fields [yaml-shape]\n"));
    CHECK(starts(refused(board("  p: [hdmi-a plug]\n")),
                 "input:3:6: error: expected a map of named fields [yaml-shape]\n"));
}

TEST_CASE("a connector is named with its gender") {
    const std::string why =
        "must name a connector and say plug or receptacle, such as 'hdmi-a "
        "receptacle' [port-gender]\n";
    CHECK(refused(board("  p: hdmi-a\n")) == "input:3:6: error: 'hdmi-a' " + why +
                                                 "      p: hdmi-a\n"
                                                 "         ^\n");
    CHECK(starts(refused(board("  p: hdmi-a male\n")), "input:3:6: error: 'hdmi-a male' " + why));
    CHECK(starts(refused(board("  p: {connector: hdmi-a  plug}\n")),
                 "input:3:18: error: 'hdmi-a  plug' " + why));
    CHECK(starts(refused(board("  p: hdmi-aa plug\n")),
                 "input:3:6: error: no pin map 'hdmi-aa' among the connectors (did you mean "
                 "'hdmi-a'?) [pinmap-unknown]\n"));
}

TEST_CASE("a receptacle is named with its positions and its first contact") {
    const auto said = [](const std::string& fields) {
        return refused(board("  p: {receptacle: ffc-0.50-bottom" + fields + "}\n"));
    };
    CHECK(starts(said(", positions: 4, wired: [A, B, A, B]"),
                 "input:3:6: error: 'first-contact' is missing [yaml-field-missing]\n"));
    CHECK(starts(said(", positions: 4, first-contact: up, wired: [A, B, A, B]"),
                 "input:3:65: error: 'first-contact' must be one of: left, right; not 'up' "
                 "[yaml-word]\n"));
    CHECK(starts(said(", first-contact: left, wired: []"),
                 "input:3:6: error: 'positions' is missing [yaml-field-missing]\n"));
    CHECK(starts(said(", positions: 200, first-contact: left, wired: []"),
                 "input:3:47: error: ffc-0.50-bottom is made with 4 to 60 positions, not 200 "
                 "[positions-made]\n"));
    CHECK(starts(said(", positions: 4, first-contact: left"),
                 "input:3:6: error: 'wired' is missing [yaml-field-missing]\n"));
    CHECK(starts(
        refused(board("  p: {receptacle: ffc-0.55-bottom, positions: 4, first-contact: "
                      "left, wired: [A, B, A, B]}\n")),
        "input:3:19: error: no pin map 'ffc-0.55-bottom' among the receptacles (did you mean "
        "'ffc-0.50-bottom'?) [pinmap-unknown]\n"));
}

TEST_CASE("a list has as many entries as the port has contacts") {
    CHECK(refused(board("  p: {connector: usb2-a plug, wired: [A, A, B]}\n")) ==
          "input:3:38: error: p has 4 contacts, but 3 are listed [contact-count]\n"
          "      p: {connector: usb2-a plug, wired: [A, A, B]}\n"
          "                                         ^\n");
    CHECK(starts(
        refused(board("  p: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, "
                      "wired: [A, B, A, B, A]}\n")),
        "input:3:78: error: p has 4 contacts, but 5 are listed [contact-count]\n"));
}

TEST_CASE("entries that YAML takes for something else are refused with a hint") {
    CHECK(starts(refused(board("  p: {pads: [[D0], A, A]}\n")),
                 "input:3:14: error: expected a signal name here; quote a text that starts with a "
                 "sign such as # & * ! [ or { [yaml-shape]\n"));
    CHECK(refused(board("  p: {pads: [~, A, A]}\n")).find("expected a signal name here") !=
          std::string::npos);
}

TEST_CASE("a ribbon's connector says which receptacle the part is") {
    CHECK(refused(board("  p: csi-15 receptacle\n")) ==
          "input:3:6: error: a ribbon goes into csi-15: say which receptacle the part is and where "
          "its first contact is, such as {connector: csi-15 receptacle, receptacle: "
          "ffc-1.00-bottom, first-contact: left} [port-receptacle]\n"
          "      p: csi-15 receptacle\n"
          "         ^\n");
    CHECK(starts(refused(board("  p: {connector: hdmi-a plug, receptacle: ffc-0.50-bottom, "
                               "first-contact: left}\n")),
                 "input:3:3: error: hdmi-a takes a plug, not a ribbon [port-receptacle]\n"));
    CHECK(refused(board("  p: {connector: csi-15 receptacle, receptacle: ffc-1.00-top, "
                        "first-contact: right}\n")) == "no complaint");
    CHECK(starts(refused(board("  p: {connector: csi-15 receptacle, receptacle: ffc-1.00-top, "
                               "positions: 15, first-contact: right}\n")),
                 "input:3:63: error: unknown field 'positions'"));
}

TEST_CASE("names of ports are letters and digits and two signs") {
    CHECK(starts(refused(board("  a.b: {pads: [A, A]}\n")),
                 "input:3:3: error: 'a.b': a name is made of letters, digits, - and _ [name]\n"));
    CHECK(starts(refused(board("  \"\": {pads: [A, A]}\n")), "input:3:3: error: ''"));
    CHECK(starts(refused(board("  caf\xC3\xA9: {pads: [A, A]}\n")), "input:3:3: error: 'caf"));
}

TEST_CASE("a port has at most two thousand pads") {
    std::string list = "A";
    for (int i = 1; i < 2000; ++i) list += ", A";
    CHECK(refused(board("  p: {pads: [" + list + "]}\n")) == "no complaint");
    CHECK(refused(board("  p: {pads: [" + list + ", A]}\n"))
              .find("input:3:13: error: a port has at most 2000 pads [contact-count]\n") == 0);
}

TEST_CASE("unknown fields and words of a board are refused") {
    CHECK(refused(board(tail) + "lenghts: {}\n")
              .find("unknown field 'lenghts' (did you mean "
                    "'lengths'?)") != std::string::npos);
    CHECK(refused(board(tail) + "ground: two\n") ==
          "input:4:9: error: 'ground' must be one of: one, separate; not 'two' [yaml-word]\n"
          "    ground: two\n"
          "            ^\n");
    CHECK(refused(board(tail) + "permittivity: -1\n")
              .find("'permittivity' must be a number above nothing, not '-1'") !=
          std::string::npos);
    CHECK(refused(board("  p: {pads: [A, A], refrence: J1}\n"))
              .find("unknown field 'refrence' (did you mean 'reference'?)") != std::string::npos);
}

TEST_CASE("all faults of a board are told at once") {
    const std::string said =
        refused(board("  a: hdmi-b plug\n  b: {connector: usb2-a, wired: []}\n") + "ground: x\n");
    CHECK(said.find("[pinmap-unknown]") != std::string::npos);
    CHECK(said.find("[port-gender]") != std::string::npos);
    CHECK(said.find("[yaml-word]") != std::string::npos);
}

/// A board of a plug and pads, and what it says of its layers and traces.
std::string layered(const std::string& more) {
    return board("  plug: usb2-a plug\n  out: {pads: [VBUS, D-, D+, GND]}\n") + more;
}

TEST_CASE("a board's stack-up and traces reach the nets they are of") {
    Library library = shipped_library();
    Design design;
    read_board(text_source(
                   layered("stack-up: {copper: 0.035 mm, dielectric: 0.2 mm, er: 4.4, loss: 0.02,\n"
                           "  mask: {thickness: 20 um, er: 3.5}}\n"
                           "pair-trace: {width: 0.25 mm, gap: 0.2 mm}\n"
                           "lengths: {VBUS: 12 mm}\nwidths: {vbus: 1 mm}\n")),
               "it", design, library);
    const Board& made = design.boards.at(0);
    REQUIRE(made.stack_up);
    CHECK(made.stack_up->plane);
    CHECK(made.stack_up->mask->thickness == Millimetres(0.02));
    for (const Net& net : made.nets) {
        CAPTURE(net.name);
        CHECK(net.pair_trace.has_value() == (net.name == "D+" || net.name == "D-"));
        CHECK(net.width.has_value() == (net.name == "VBUS"));
    }
}

TEST_CASE("a pair's own traces beat those of every pair") {
    Library library = shipped_library();
    Design design;
    read_board(text_source(layered("stack-up: {copper: 0.035 mm, dielectric: 1.6 mm, er: 4.4, "
                                   "plane: no}\n"
                                   "pair-trace: {width: 0.25 mm, gap: 0.2 mm, ground-gap: 0.2 mm}\n"
                                   "pair-traces: {d: {width: 0.3 mm, gap: 0.15 mm, ground-gap: "
                                   "0.2 mm}}\n")),
               "it", design, library);
    for (const Net& net : design.boards.at(0).nets) {
        if (net.pair_trace) CHECK(net.pair_trace->width == Millimetres(0.3));
    }
}

// Texts: words we chose.
TEST_CASE("what a stack-up and its traces cannot mean is refused where it stands") {
    const std::string layers = "stack-up: {copper: 0.035 mm, dielectric: 0.2 mm, er: 4.4}\n";
    const std::string pair = "pair-trace: {width: 0.25 mm, gap: 0.2 mm}\n";
    CHECK(refused(layered(layers + pair)) == "no complaint");
    CHECK(starts(refused(layered(pair)),
                 "input:5:13: error: 'pair-trace' says nothing without the layers around it; give "
                 "'stack-up' [stack-up-missing]\n"));
    CHECK(starts(refused(layered("lengths: {VBUS: 1 mm}\nwidths: {VBUS: 1 mm}\n")),
                 "input:6:9: error: 'widths' say nothing without the thickness of the copper; give "
                 "'stack-up' [stack-up-missing]\n"));
    CHECK(starts(refused(layered(layers + "widths: {VBUS: 1 mm}\n")),
                 "input:6:10: error: the width of 'VBUS' says nothing without its length; give it "
                 "in 'lengths' [length-missing]\n"));
    CHECK(starts(refused(layered(layers + "permittivity: 3.2\n")),
                 "input:6:15: error: the delay of traces follows from 'stack-up'; leave "
                 "'permittivity' out [permittivity-twice]\n"));
    CHECK(starts(refused(layered("stack-up: {copper: 0.035 mm, dielectric: 0.2 mm, er: 4.4, "
                                 "plane: no}\n" +
                                 pair)),
                 "input:6:13: error: on a board without a plane a pair needs ground beside it; "
                 "give 'ground-gap' [trace-ground]\n"));
    CHECK(starts(refused(layered(layers + "pair-traces: {D9: {width: 0.25 mm, gap: 0.2 mm}}\n")),
                 "input:6:15: error: no fast pair 'D9' on this board"));
    CHECK(starts(refused(layered("stack-up: {copper: 35 mm, dielectric: 0.2 mm, er: 4.4}\n")),
                 "input:5:20: error: 'copper' must be from 0.001 mm to 20 mm, not 35 mm "
                 "[trace-size]\n"));
    CHECK(starts(refused(layered("stack-up: {copper: 0.035 mm, dielectric: 0.2 mm, er: 0.4}\n")),
                 "input:5:54: error: 'er' must be from 1 to 100, not 0.4 [trace-size]\n"));
    CHECK(starts(refused(layered("stack-up: {copper: 0.035 mm, er: 4.4}\n")),
                 "input:5:11: error: 'dielectric' is missing [yaml-field-missing]\n"));
}

// Texts: words we chose.
TEST_CASE("track rules are read, and those that no board can have are refused where they stand") {
    Library library = shipped_library();
    Design design;
    read_board(text_source(layered("track-rules: {track: 0.1 mm, via: 0.4 mm, hole: 0.2 mm}\n")),
               "it", design, library);
    const TrackLimits& limits = design.boards.at(0).track_limits;
    CHECK(limits.track == Millimetres(0.1));
    CHECK_FALSE(limits.gap);
    CHECK(limits.via == Millimetres(0.4));
    CHECK(limits.hole == Millimetres(0.2));
    CHECK(starts(refused(layered("track-rules: {track: 30 mm}\n")),
                 "input:5:22: error: 'track' must be from 0.001 mm to 20 mm, not 30 mm "
                 "[trace-size]\n"));
    CHECK(starts(refused(layered("track-rules: {via: 0.4 mm, hole: 0.4 mm}\n")),
                 "input:5:34: error: a hole of 0.4 mm leaves nothing of a via of 0.4 mm; make the "
                 "via wider or the hole smaller [trace-size]\n"));
    CHECK(
        starts(refused(layered("track-rules: {via: 0.4 mm, hole: 0.32 mm}\n")),
               "input:5:34: error: a hole of 0.32 mm leaves a ring of 0.04 mm of a via of 0.4 mm, "
               "and 0.05 mm is the least; make the via wider or the hole smaller [trace-size]\n"));
    read_board(text_source(layered("track-rules: {via: 0.4 mm, hole: 0.3 mm}\n")), "at", design,
               library);
    CHECK(starts(refused(layered("track-rules: {trak: 0.1 mm}\n")),
                 "input:5:15: error: unknown field 'trak' (did you mean 'track'?)"));
    CHECK(starts(refused(layered("track-rules: 0.1 mm\n")), "input:5:14: error: "));
}

}  // namespace pinfold
