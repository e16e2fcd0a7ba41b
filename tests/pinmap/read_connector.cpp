#include <catch2/catch.hpp>

#include "pinmap/read.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

const char* const wires =
    "pinfold-interface: 1\n"
    "name: wires\n"
    "source: invented\n"
    "ends: [near, far]\n"
    "signals:\n"
    "- {signal: D+, role: pair-half, direction: forward}\n"
    "- {signal: D-, role: pair-half, direction: forward}\n"
    "- {signal: GND, role: ground, direction: none}\n"
    "- {signal: 5V, role: supply, direction: forward}\n"
    "pairs:\n"
    "- {pair: D, plus: D+, minus: D-}\n";

const Interface& wires_interface(const std::string& id, const Mark& at) {
    static const Interface interface = read_interface("wires", text_source(wires));
    if (id == "wires") return interface;
    throw InputError({{Severity::error, "pinmap-unknown", "no such interface", at}});
}

const std::string head =
    "pinfold-connector: 1\n"
    "name: four\n"
    "source: invented\n"
    "interface: wires\n"
    "pitch: 0.5 mm\n";
const std::string four =
    "contacts:\n"
    "- {contact: 1, signal: GND}\n"
    "- {contact: 2, signal: D+}\n"
    "- {contact: 3, signal: D-}\n"
    "- {contact: 4, signal: open}\n";

Connector read(const std::string& text) {
    return read_connector("four", text_source(text), wires_interface);
}
std::string refused(const std::string& text) {
    return complaint([&] { read(text); });
}
bool starts(const std::string& text, const std::string& start) { return text.find(start) == 0; }

}  // namespace

// Inputs: invented. Expected texts: words we chose.
TEST_CASE("a connector is read in the order of its contacts") {
    const Connector connector = read(head + four);
    REQUIRE(connector.contacts.size() == 4);
    CHECK(connector.contacts[1].label == "2");
    CHECK(connector.contacts[1].number == ContactNumber(2));
    CHECK(connector.contacts[1].signal == 0u);
    CHECK_FALSE(connector.contacts[3].signal);
    CHECK(connector.plug_contacts.size() == 4);
    CHECK(connector.body == "four");
    CHECK_FALSE(connector.flippable);
    CHECK(connector.find_label("3") == ContactNumber(3));
    CHECK_FALSE(connector.find_label("5"));
}

TEST_CASE("a hole in the row is refused where the row breaks") {
    CHECK(refused(head + "contacts:\n- {contact: 1, signal: GND}\n- {contact: 3, signal: GND}\n") ==
          "input:8:13: error: contact 2 expected here, found 3 [contact-row]\n"
          "    - {contact: 3, signal: GND}\n"
          "                ^\n");
    CHECK(starts(refused(head + "contacts:\n- {contact: 2, signal: GND}\n"),
                 "input:7:13: error: contact 1 expected here, found 2 [contact-row]\n"));
    CHECK(starts(
        refused(head + "contacts:\n- {contact: A1, signal: GND}\n- {contact: B2, signal: GND}\n"),
        "input:8:13: error: contact B1 expected here, found B2 [contact-row]\n"));
}

TEST_CASE("a contact that stands twice is refused with both places") {
    CHECK(refused(head + "contacts:\n- {contact: 1, signal: GND}\n- {contact: 1, signal: 5V}\n") ==
          "input:8:13: error: contact 1 stands twice [contact-twice]\n"
          "    - {contact: 1, signal: 5V}\n"
          "                ^\n"
          "input:7:13: note: first here\n"
          "    - {contact: 1, signal: GND}\n"
          "                ^\n");
}

TEST_CASE("a contact is a number or a letter and a number") {
    const std::string label = GENERATE(as<std::string>{}, "A", "-1", "1A", "01", "1.5", "A 1",
                                       "a.1", "\"\\u00e91\"", "+1");
    const std::string bare = label.front() == '"' ? "\xC3\xA9"
                                                    "1"
                                                  : label;
    CAPTURE(label);
    CHECK(starts(refused(head + "contacts:\n- {contact: " + label + ", signal: GND}\n"),
                 "input:7:13: error: a contact is a number, or a letter and a number, not '" +
                     bare + "' [contact-label]\n"));
}

TEST_CASE("a pair with one half on the connector is refused") {
    CHECK(refused(head + "contacts:\n- {contact: 1, signal: D+}\n- {contact: 2, signal: GND}\n") ==
          "input:7:13: error: pair D has only its plus half here [pair-half]\n"
          "    - {contact: 1, signal: D+}\n"
          "                ^\n");
    CHECK(starts(refused(head + "contacts:\n- {contact: 1, signal: D-}\n"),
                 "input:7:13: error: pair D has only its minus half here [pair-half]\n"));
    CHECK(refused(head + "contacts:\n- {contact: 1, signal: GND}\n") == "no complaint");
}

TEST_CASE("an unknown signal is told the nearest") {
    CHECK(refused(head + "contacts:\n- {contact: 1, signal: GNDD}\n") ==
          "input:7:24: error: interface wires has no signal 'GNDD' (did you mean 'GND'?) "
          "[signal-unknown]\n"
          "    - {contact: 1, signal: GNDD}\n"
          "                           ^\n");
    CHECK(starts(refused(head + "contacts:\n- {contact: 1, signal: opn}\n"),
                 "input:7:24: error: interface wires has no signal 'opn' (did you mean 'open'?)"));
}

TEST_CASE("a pin map uses the signal's own name and no alias") {
    CHECK(starts(refused(head + "contacts:\n- {contact: 1, signal: +5V}\n"),
                 "input:7:24: error: interface wires has no signal '+5V' (did you mean '5V'?)"));
}

TEST_CASE("unknown and missing and repeated fields are refused") {
    CHECK(refused(head + four + "pich: 1 mm\n")
              .find("unknown field 'pich' (did you mean 'pitch'?)") != std::string::npos);
    CHECK(refused("pinfold-connector: 1\nname: x\ninterface: wires\npitch: 1 mm\n" + four)
              .find("'source' is missing [yaml-field-missing]") != std::string::npos);
    CHECK(refused(head + four + "name: again\n").find("'name' stands twice in this map") !=
          std::string::npos);
    CHECK(starts(refused(head + "contacts:\n- {contact: 1, signals: GND}\n"),
                 "input:7:3: error: 'signal' is missing [yaml-field-missing]\n"));
}

TEST_CASE("a connector without contacts is refused") {
    CHECK(starts(refused(head), "input:1:1: error: 'contacts' is missing [yaml-field-missing]\n"));
    CHECK(starts(refused(head + "contacts: []\n"),
                 "input:6:11: error: no contacts are listed [contact-row]\n"));
}

TEST_CASE("a connector without an interface or with an unknown one is refused") {
    CHECK(starts(refused("pinfold-connector: 1\nname: x\nsource: invented\npitch: 1 mm\n" + four),
                 "input:1:1: error: 'interface' is missing [yaml-field-missing]\n"));
    CHECK(starts(refused("pinfold-connector: 1\nname: x\nsource: y\ninterface: ''\n" + four),
                 "input:4:12: error: 'interface' is empty [yaml-field-empty]\n"));
    CHECK(starts(refused("pinfold-connector: 1\nname: x\nsource: y\ninterface: wirse\n" + four),
                 "input:4:12: error: no such interface [pinmap-unknown]\n"));
}

TEST_CASE("an end the interface does not have is refused") {
    CHECK(refused(head + "end: source\n" + four) ==
          "input:6:6: error: the ends of interface wires are near and far, not 'source' "
          "[interface-ends]\n"
          "    end: source\n"
          "         ^\n");
    CHECK(read(head + "end: far\n" + four).end == "far");
}

TEST_CASE("the plug lists the same contacts in the same order") {
    const std::string plug =
        "plug-contacts:\n"
        "- {contact: 1, signal: GND}\n"
        "- {contact: 2, signal: D+}\n"
        "- {contact: 3, signal: D-}\n";
    CHECK(
        starts(refused(head + four + plug),
               "input:12:13: error: plug-contacts must list the same contacts in the same order; a "
               "missing one is 'absent' [contact-row]\n"));
    const Connector connector = read(head + four + plug + "- {contact: 4, signal: absent}\n");
    CHECK(connector.plug_contacts[3].absent);
    CHECK_FALSE(connector.contacts[3].absent);
    CHECK(&connector.contacts_of(Gender::plug) == &connector.plug_contacts);
    CHECK(&connector.contacts_of(Gender::receptacle) == &connector.contacts);
}

TEST_CASE("attitudes are upright and flipped") {
    CHECK(read(head + four + "attitudes: [upright, flipped]\n").flippable);
    CHECK_FALSE(read(head + four + "attitudes: [upright]\n").flippable);
    CHECK(refused(head + four + "attitudes: [upright, fliped]\n") ==
          "input:11:12: error: 'attitudes' lists upright and flipped, not 'fliped' (did you mean "
          "'flipped'?) [yaml-word]\n"
          "    attitudes: [upright, fliped]\n"
          "               ^\n");
}

TEST_CASE("a flipped plug meets the other row with the same number") {
    CHECK(flipped_label("A4") == "B4");
    CHECK(flipped_label("B12") == "A12");
    CHECK(flipped_label("7") == "7");
    CHECK(flipped_label("") == "");
}

TEST_CASE("the shell's pads have names of their own") {
    CHECK(read(head + four + "shell: [S1, S2]\n").shell.size() == 2);
    CHECK(starts(refused(head + four + "shell: [S1, S1]\n"),
                 "input:11:8: error: the shell's pad 'S1' has the name of another contact "
                 "[contact-twice]\n"));
    CHECK(starts(refused(head + four + "shell: [4]\n"),
                 "input:11:8: error: the shell's pad '4' has the name of another contact"));
}

TEST_CASE("a face shows every contact once and has a source") {
    const auto face = [](const std::string& rows) {
        return head + four + "face:\n  source: invented\n  rows:\n" + rows;
    };
    const Connector connector = read(face("  - [1, 2]\n  - [4, 3]\n"));
    REQUIRE(connector.face);
    CHECK(connector.face->rows[1] == std::vector<std::string>{"4", "3"});
    CHECK(refused(face("  - [1, 2]\n  - [3]\n")) ==
          "input:12:3: error: the face leaves out contact 4 [contact-row]\n"
          "      source: invented\n"
          "      ^\n");
    CHECK(starts(refused(face("  - [1, 2, 2]\n  - [4, 3]\n")),
                 "input:14:12: error: '2' is no contact of this connector, or stands twice "
                 "[contact-label]\n"));
    CHECK(starts(refused(face("  - [1, 2, 9]\n  - [4, 3]\n")),
                 "input:14:12: error: '9' is no contact of this connector, or stands twice"));
    CHECK(refused(head + four + "face: {rows: [[1, 2, 3, 4]]}\n").find("'source' is missing") !=
          std::string::npos);
    CHECK(starts(refused(head + four + "face: upright\n"),
                 "input:11:7: error: expected a map of named fields [yaml-shape]\n"));
}

}  // namespace pinfold
