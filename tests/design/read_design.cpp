#include <catch2/catch.hpp>

#include <fstream>

#include "design/told.hpp"

namespace pinfold {
namespace {

/// A sound design, line by line, so that a test can spoil one line.
const std::string sound =
    "pinfold: 1\n"
    "title: rain gauge on a mast\n"
    "devices:\n"
    "  gauge: {ports: {out: usb2-a receptacle}}\n"
    "  box: {ports: {in: usb2-a receptacle, lamp: {pads: [5V, GND]}}}\n"
    "boards:\n"
    "  top: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-bottom, positions: 4, "
    "first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n"
    "  foot: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-top, positions: 4, "
    "first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n"
    "ribbons:\n"
    "  strap: {type: ffc-0.50, conductors: 4, length: 120 mm, copper: same-side}\n"
    "joins:\n"
    "- gauge.out + top.plug\n"
    "- top.tail + strap.a\n"
    "- strap.b + foot.tail\n"
    "- foot.plug + box.in\n"
    "carry:\n"
    "- {interface: usb2, from: gauge.out, to: box.in, rate: 480 Mbit/s}\n";

std::string with(const std::string& old, const std::string& fresh) {
    std::string text = sound;
    REQUIRE(text.find(old) != std::string::npos);
    return text.replace(text.find(old), old.size(), fresh);
}

std::string refused(const std::string& text) {
    return complaint([&] { design_of(text); });
}

/// What is said when one piece of the sound design is replaced.
std::string said(const std::string& old, const std::string& fresh) {
    return refused(with(old, fresh));
}

const std::string first_join = "- gauge.out + top.plug";

}  // namespace

// Scenarios: invented. Expected texts: words we chose; each is a sentence of its own.
TEST_CASE("the sound design is read") {
    const Design design = design_of(sound);
    CHECK(design.boards.size() == 4);
    CHECK(design.joins.size() == 2);
    CHECK(design.seats.size() == 2);
    CHECK(design.carries[0].name == "usb2 gauge.out to box.in");
    CHECK(design.remarks.empty());
    CHECK(passes_of(design)[1] == "D- gauge.out.2 good box.in.2");
}

TEST_CASE("a design that names a missing file is refused where it does") {
    const std::string missing = (repository() / "examples/lid-link/none.yaml").string();
    CHECK(said("boards:\n", "boards:\n  gone: none.yaml\n") ==
          "input:7:9: error: there is no board file '" + missing + "' [file-missing]\n" +
              "      gone: none.yaml\n"
              "            ^\n");
    CHECK(said("boards:\n", "boards:\n  gone: .\n").find("is not a file [file-unreadable]") !=
          std::string::npos);
}

TEST_CASE("a broken board file is told with its own place") {
    const auto folder = std::filesystem::temp_directory_path() / "pinfold-test-design";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "b.yaml") << "pinfold-board: 1\nports: {p: hdmi plug}\n";
    const std::string text = "pinfold: 1\ntitle: t\nboards: {b: b.yaml}\nribbons: {r: {}}\n";
    const std::string told = complaint([&] {
        Library library = shipped_library();
        read_design(text_source(text), folder, library);
    });
    CHECK(told.find((folder / "b.yaml").string() + ":2:12: error: no pin map 'hdmi'") == 0);
    CHECK(told.find("input:4:14: error: 'type' is missing") != std::string::npos);
    std::filesystem::remove_all(folder);
}

TEST_CASE("a ribbon with more conductors than the receptacle is refused") {
    const std::string told = said("conductors: 4", "conductors: 6");
    CHECK(told ==
          "input:13:3: error: strap has 6 conductors, but top.tail has 4 contacts "
          "[ribbon-too-wide]\n"
          "    - top.tail + strap.a\n"
          "      ^\n"
          "input:14:3: error: strap has 6 conductors, but foot.tail has 4 contacts "
          "[ribbon-too-wide]\n"
          "    - strap.b + foot.tail\n"
          "      ^\n");
}

TEST_CASE("a ribbon of a width that is not made is refused") {
    CHECK(said("conductors: 4", "conductors: 90")
              .find("input:10:39: error: ffc-0.50 is made with 4 to 80 conductors, not 90 "
                    "[conductors-made]\n") == 0);
}

TEST_CASE("a join of three or of one or of an empty side is refused") {
    CHECK(said(first_join, first_join + " + box.in") ==
          "input:12:3: error: a join has two sides, such as 'base.tail + strap.a'; this one has 3 "
          "[join-shape]\n"
          "    - gauge.out + top.plug + box.in\n"
          "      ^\n");
    CHECK(said(first_join, "- gauge.out")
              .find("'base.tail + strap.a'; this one has 1 "
                    "[join-shape]") != std::string::npos);
    CHECK(said(first_join, "- gauge.out +").find("a side of this one is empty [join-shape]") !=
          std::string::npos);
    CHECK(said(first_join, "- [gauge.out, top.plug]")
              .find("input:12:3: error: expected a join such as 'base.tail + strap.a' here") == 0);
}

TEST_CASE("a join to itself is refused") {
    CHECK(said(first_join, "- gauge.out + gauge.out") ==
          "input:12:3: error: gauge.out cannot be joined to itself [join-itself]\n"
          "    - gauge.out + gauge.out\n"
          "      ^\n");
    CHECK(said("- top.tail + strap.a", "- strap.a + strap.a")
              .find("strap.a cannot be joined to itself [join-itself]") != std::string::npos);
}

TEST_CASE("a port and a ribbon end joined twice are refused with both places") {
    CHECK(said("- foot.plug + box.in\n", "- foot.plug + top.plug\n") ==
          "input:15:3: error: top.plug is joined twice [join-twice]\n"
          "    - foot.plug + top.plug\n"
          "      ^\n"
          "input:12:3: note: first here\n"
          "    - gauge.out + top.plug\n"
          "      ^\n");
    CHECK(said("strap.b", "strap.a") ==
          "input:14:3: error: strap.a is joined twice [join-twice]\n"
          "    - strap.a + foot.tail\n"
          "      ^\n"
          "input:13:3: note: first here\n"
          "    - top.tail + strap.a\n"
          "      ^\n");
}

TEST_CASE("two ribbon ends cannot be joined") {
    CHECK(said("- top.tail + strap.a\n- strap.b + foot.tail\n", "- strap.a + strap.b\n") ==
          "input:13:3: error: two ribbon ends cannot be joined; put a board between them "
          "[join-ribbons]\n"
          "    - strap.a + strap.b\n"
          "      ^\n");
}

TEST_CASE("names nobody has are told the nearest") {
    CHECK(said(first_join, "- guage.out + top.plug") ==
          "input:12:3: error: nothing is named 'guage' here (did you mean 'gauge'?) "
          "[name-unknown]\n"
          "    - guage.out + top.plug\n"
          "      ^\n");
    CHECK(said(first_join, "- gauge.ot + top.plug") ==
          "input:12:3: error: gauge has no port 'ot' (did you mean 'out'?); its ports: out "
          "[port-unknown]\n"
          "    - gauge.ot + top.plug\n"
          "      ^\n");
    CHECK(said(first_join, "- gauge + top.plug")
              .find("gauge has no port ''; its ports: out [port-unknown]") != std::string::npos);
    CHECK(said("strap.b", "strap.c")
              .find("a ribbon has the ends strap.a and strap.b, not 'strap.c' [ribbon-end]") !=
          std::string::npos);
    CHECK(said("strap.b", "strop.b").find("(did you mean 'strap'?) [name-unknown]") !=
          std::string::npos);
}

TEST_CASE("one name stands for one thing") {
    CHECK(said("  strap: {", "  gauge: {")
              .find("input:10:3: error: 'gauge' is named twice in this design [name-twice]\n") ==
          0);
    CHECK(said("  strap: {", "  a b: {")
              .find("'a b': a name is made of letters, digits, - and _ "
                    "[name]") != std::string::npos);
}

TEST_CASE("a promise to a port without that signal is refused") {
    CHECK(said("interface: usb2", "interface: hdmi") ==
          "input:17:15: error: gauge.out does not speak hdmi; it speaks usb2 [carry-port]\n"
          "    - {interface: hdmi, from: gauge.out, to: box.in, rate: 480 Mbit/s}\n"
          "                  ^\n"
          "input:4:19: note: the port is here\n"
          "      gauge: {ports: {out: usb2-a receptacle}}\n"
          "                      ^\n");
    CHECK(said("to: box.in", "to: box.lamp")
              .find("input:17:15: error: box.lamp does not speak usb2; it speaks plain "
                    "[carry-port]\n") == 0);
    CHECK(said("interface: usb2", "supply: 12V")
              .find("input:17:12: error: gauge.out has no supply '12V' [carry-port]\n") == 0);
    CHECK(said("interface: usb2", "supply: D+").find("gauge.out has no supply 'D+' [carry-port]") !=
          std::string::npos);
    CHECK(
        said("interface: usb2", "supply: GND").find("gauge.out has no supply 'GND' [carry-port]") !=
        std::string::npos);
}

TEST_CASE("a promise carries one thing between two ports") {
    CHECK(said("interface: usb2, ", "")
              .find("input:17:3: error: a promise carries either an 'interface' or a 'supply' "
                    "[carry-what]\n") == 0);
    CHECK(said("interface: usb2", "interface: usb2, supply: VBUS").find("[carry-what]") !=
          std::string::npos);
    CHECK(
        said("to: box.in", "to: gauge.out")
            .find(
                "input:17:3: error: a promise runs between two ports, not from gauge.out to itself "
                "[carry-itself]\n") == 0);
    CHECK(said("to: box.in, ", "") ==
          "input:17:3: error: 'to' is missing [yaml-field-missing]\n"
          "    - {interface: usb2, from: gauge.out, rate: 480 Mbit/s}\n"
          "      ^\n");
    CHECK(
        said("interface: usb2", "interface: usb5").find("no pin map 'usb5' among the interfaces") !=
        std::string::npos);
}

TEST_CASE("what is left out is a signal of the interface") {
    CHECK(
        said("rate: 480", "leave-out: [DX], rate: 480") ==
        "input:17:61: error: interface usb2 has no signal 'DX' (did you mean 'D-'?) "
        "[signal-unknown]\n"
        "    - {interface: usb2, from: gauge.out, to: box.in, leave-out: [DX], rate: 480 Mbit/s}\n"
        "                                                                ^\n");
}

TEST_CASE("a negative length and one of nothing and one in inches are refused") {
    CHECK(said("length: 120 mm", "length: -120 mm") ==
          "input:10:50: error: 'length' must be more than nothing, not '-120 mm' [yaml-unit]\n"
          "      strap: {type: ffc-0.50, conductors: 4, length: -120 mm, copper: same-side}\n"
          "                                                     ^\n");
    CHECK(said("length: 120 mm", "length: 0 mm").find("must be more than nothing, not '0 mm'") !=
          std::string::npos);
    CHECK(said("length: 120 mm", "length: 0.5 in") ==
          "input:10:50: error: 'length' must be a length such as '0.5 mm', not '0.5 in': that is "
          "12.7 mm [yaml-unit]\n"
          "      strap: {type: ffc-0.50, conductors: 4, length: 0.5 in, copper: same-side}\n"
          "                                                     ^\n");
    CHECK(said("length: 120 mm", "length: 120")
              .find("'length' must be a length such as '0.5 mm', not '120': the unit is missing") !=
          std::string::npos);
}

TEST_CASE("a ribbon says what it is") {
    CHECK(said("type: ffc-0.50", "type: ffc-0.5")
              .find("no pin map 'ffc-0.5' among the ribbons (did you mean 'ffc-0.50'?)") !=
          std::string::npos);
    CHECK(said("copper: same-side", "copper: A")
              .find("'copper' must be one of: same-side, opposite-side; not 'A' [yaml-word]") !=
          std::string::npos);
    CHECK(said(", copper: same-side", "").find("'copper' is missing") != std::string::npos);
    CHECK(said("conductors: 4", "conductors: four")
              .find("'conductors' must be a whole number from 1 to 1000000, not 'four'") !=
          std::string::npos);
    CHECK(said("type: ffc-0.50", "type: flat-1.27").find("'sockets' is missing") !=
          std::string::npos);
}

TEST_CASE("a lay is made of the words of the bench") {
    CHECK(said("copper: same-side", "copper: same-side, lay: [fold left]") ==
          "input:10:83: error: a step of the lay is one of: straight, bend-up, bend-down, "
          "fold-left, fold-right, half-twist; not 'fold left' (did you mean 'fold-left'?) "
          "[yaml-word]\n"
          "      strap: {type: ffc-0.50, conductors: 4, length: 120 mm, copper: same-side, lay: "
          "[fold left]}\n"
          "                                                                                     "
          " ^\n");
    CHECK(said("copper: same-side", "copper: same-side, faces: {a: up}")
              .find("'faces' says how the boards lie; say in 'lay' how the ribbon runs, such as "
                    "[straight] [lay-missing]") != std::string::npos);
    CHECK(said("copper: same-side", "copper: same-side, lay: [straight], faces: {a: left}")
              .find("'a' must be one of: up, down; not 'left' [yaml-word]") != std::string::npos);
    CHECK(said("copper: same-side", "copper: same-side, lay: [bend-up], faces: {b: up}")
              .find("a ribbon with this lay arrives on edge at a board that faces up; change the "
                    "lay or "
                    "'faces' [lay-on-edge]") != std::string::npos);
    CHECK(refused(with("copper: same-side",
                       "copper: same-side, lay: [bend-up], faces: {b: back}")) == "no complaint");
}

TEST_CASE("which row touches is said of a ribbon in a both-sided receptacle alone") {
    CHECK(said("- top.tail + strap.a", "- {join: top.tail + strap.a, touches: top}") ==
          "input:13:10: error: 'touches' is for a ribbon in a receptacle with contacts on both "
          "sides; top.tail is not one [join-touches]\n"
          "    - {join: top.tail + strap.a, touches: top}\n"
          "             ^\n");
    CHECK(said(first_join, "- {join: gauge.out + top.plug, touches: top}")
              .find("gauge.out is not one [join-touches]") != std::string::npos);
    CHECK(said(first_join, "- {join: gauge.out + top.plug, touches: both}")
              .find("'touches' must be one of: top, bottom; not 'both'") != std::string::npos);
}

TEST_CASE("an attitude is said of a plug that goes in both ways alone") {
    CHECK(said(first_join, "- {join: gauge.out + top.plug, attitude: flipped}") ==
          "input:12:10: error: gauge.out goes in one way only [join-attitude]\n"
          "    - {join: gauge.out + top.plug, attitude: flipped}\n"
          "             ^\n");
    CHECK(said("- top.tail + strap.a", "- {join: top.tail + strap.a, attitude: flipped}")
              .find("top.tail goes in one way only [join-attitude]") != std::string::npos);
    CHECK(refused(with(first_join, "- {join: gauge.out + top.plug, attitude: upright}")) ==
          "no complaint");
}

TEST_CASE("a lead says whence and whither and of what") {
    const auto lead = [](const std::string& fields) {
        return refused(sound + "leads:\n  red: {" + fields + "}\n");
    };
    CHECK(lead("from: box.lamp.5V, to: top.plug.1, gauge: AWG 24, length: 80 mm") ==
          "no complaint");
    CHECK(lead("from: box.lamp.5V, to: top.plug, gauge: AWG 24, length: 80 mm") ==
          "input:19:32: error: a contact is written board.port.contact, not 'top.plug' "
          "[contact-unknown]\n"
          "      red: {from: box.lamp.5V, to: top.plug, gauge: AWG 24, length: 80 mm}\n"
          "                                   ^\n");
    CHECK(lead("from: box.lamp.6V, to: top.plug.1, gauge: AWG 24, length: 80 mm")
              .find("box.lamp has no contact or signal '6V' (did you mean '5V'?) "
                    "[contact-unknown]") != std::string::npos);
    CHECK(lead("from: box.lamp.1, to: box.lamp.5V, gauge: AWG 24, length: 80 mm")
              .find("box.lamp.1 cannot be joined to itself [join-itself]") != std::string::npos);
    CHECK(lead("from: box.lamp.1, to: top.plug.1, gauge: AWG 99, length: 80 mm")
              .find("'gauge' must be a wire gauge such as 'AWG 24' or '0.25 mm2', not 'AWG 99' "
                    "[yaml-unit]") != std::string::npos);
    CHECK(lead("to: top.plug.1, gauge: AWG 24, length: 80 mm") ==
          "input:19:8: error: 'from' is missing [yaml-field-missing]\n"
          "      red: {to: top.plug.1, gauge: AWG 24, length: 80 mm}\n"
          "           ^\n");
    CHECK(lead("from: strap.a.1, to: top.plug.1, gauge: AWG 24, length: 80 mm")
              .find("nothing is named 'strap' here") != std::string::npos);
}

TEST_CASE("an acceptance names a rule and a reason") {
    CHECK(refused(sound + "accept:\n- {rule: pair-unguarded, where: strap}\n") ==
          "input:19:3: error: 'why' is missing [yaml-field-missing]\n"
          "    - {rule: pair-unguarded, where: strap}\n"
          "      ^\n");
    CHECK(refused(sound + "accept:\n- {rule: pair-unguarded, why: ''}\n")
              .find("'why' is empty [yaml-field-empty]") != std::string::npos);
}

TEST_CASE("a design has a version and a title and no unknown fields") {
    CHECK(refused("title: x\n").find("'pinfold' is missing") != std::string::npos);
    CHECK(refused("pinfold: 1\n").find("'title' is missing") != std::string::npos);
    CHECK(
        refused("pinfold: one\ntitle: x\n").find("'pinfold: one': this program reads version 1") !=
        std::string::npos);
    CHECK(refused("pinfold: 1\ntitle: x\nribons: {}\n") ==
          "input:3:1: error: unknown field 'ribons' (did you mean 'ribbons'?); this map takes: "
          "pinfold, title, devices, boards, ribbons, joins, leads, carry, budget, accept "
          "[yaml-field-unknown]\n"
          "    ribons: {}\n"
          "    ^\n");
    CHECK(refused("- pinfold\n").find("expected a map of named fields") != std::string::npos);
    CHECK(refused("pinfold: 1\ntitle: x\njoins: {a: b}\n").find("'joins' must be a list") !=
          std::string::npos);
    CHECK(refused("pinfold: 1\ntitle: x\nnot-a-key\n").find("unknown field 'not-a-key'") !=
          std::string::npos);
}

TEST_CASE("a device's contacts bear signals of the interface it names") {
    const auto device = [](const std::string& port) {
        return refused("pinfold: 1\ntitle: x\ndevices:\n  d: {ports: {p: {" + port + "}}}\n");
    };
    CHECK(device("interface: usb2, pads: [VBUS, D-, D+, GND]") == "no complaint");
    CHECK(device("pads: [LAMP, GND, 5V]") == "no complaint");
    CHECK(device("interface: usb2, pads: [VBUS, DD-]") ==
          "input:4:49: error: interface usb2 has no signal 'DD-' (did you mean 'D-'?) "
          "[signal-unknown]\n"
          "      d: {ports: {p: {interface: usb2, pads: [VBUS, DD-]}}}\n"
          "                                                    ^\n");
    CHECK(device("connector: usb2-a receptacle, signals: [VBUS, D-]")
              .find("p has 4 contacts, but 2 are listed [contact-count]") != std::string::npos);
    CHECK(
        device("connector: usb2-a receptacle, wired: [A, A, B, B]").find("unknown field 'wired'") !=
        std::string::npos);
    CHECK(device("receptacle: ffc-0.50-top, positions: 4, first-contact: left")
              .find("'signals' is missing") != std::string::npos);
}

// A device whose maker left contacts open that the standard uses.
TEST_CASE("a contact that a device's own list leaves open is idle") {
    const Design design = design_of(
        "pinfold: 1\ntitle: x\ndevices:\n"
        "  d: {ports: {p: {connector: usb2-a receptacle, signals: [VBUS, open, open, GND]}}}\n");
    const PortContact& contact = design.boards[0].ports[0].contacts[1];
    CHECK(contact.name.empty());
    CHECK_FALSE(contact.signal);
    CHECK(design.boards[0].ports[0].contacts[0].name == "VBUS");
}

TEST_CASE("all faults of a design are told at once and a hundred are enough") {
    std::string text = with("length: 120 mm", "length: 0.5 in");
    text.replace(text.find("to: box.in"), 10, "to: bax.in");
    const std::string told = refused(text);
    CHECK(told.find("[yaml-unit]") != std::string::npos);
    CHECK(told.find("[name-unknown]") != std::string::npos);

    std::string many = "pinfold: 1\ntitle: x\njoins:\n";
    for (int i = 0; i < 5000; ++i) many += "- a.b + c.d\n";
    std::size_t count = 0;
    try {
        design_of(many);
    } catch (const InputError& error) {
        count = error.findings().size();
        CHECK(error.findings().back().text == "reading stops here, after 100 faults");
    }
    CHECK(count == 101);
}

TEST_CASE("a user's own pin map beats a shipped one and the design says so") {
    const auto folder = std::filesystem::temp_directory_path() / "pinfold-test-own";
    std::filesystem::create_directories(folder / "connectors");
    std::ofstream(folder / "connectors/usb2-a.yaml")
        << "pinfold-connector: 1\nname: ours\nsource: invented\ninterface: usb2\npitch: 1 mm\n"
           "contacts: [{contact: 1, signal: GND}, {contact: 2, signal: VBUS}]\n";
    Library library({folder, repository() / "pinmaps"});
    const Design design = read_design(
        text_source("pinfold: 1\ntitle: x\ndevices: {d: {ports: {p: usb2-a receptacle}}}\n"), {},
        library);
    CHECK(design.boards[0].ports[0].contacts.size() == 2);
    CHECK(rules_of(design.remarks) == std::vector<std::string>{"pinmap-own"});
    std::filesystem::remove_all(folder);
}

}  // namespace pinfold
