#include "design/netlist.hpp"

#include <catch2/catch.hpp>

#include "design/read.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Design board_design(const std::string& ports, const std::string& name = "buoy") {
    Design design;
    Library library = shipped_library();
    read_board(text_source("pinfold-board: 1\ntitle: Buoy adapter\nports:\n" + ports), name, design,
               library);
    return design;
}

Netlist netlist_from(const std::string& ports) { return netlist_of(board_design(ports), 0); }

std::vector<std::string> references(const Netlist& netlist) {
    std::vector<std::string> found;
    for (const auto& component : netlist.components) found.push_back(component.reference);
    return found;
}

/// The net of a pad: `name: J1.1 J2.3`.
std::string net_of(const Netlist& netlist, const std::string& reference, const std::string& pad) {
    for (const auto& net : netlist.nets) {
        const Netlist::Node wanted{reference, pad};
        if (std::find(net.nodes.begin(), net.nodes.end(), wanted) == net.nodes.end()) continue;
        std::string text = net.name + ":";
        for (const auto& node : net.nodes) text += " " + node.reference + "." + node.pad;
        return text;
    }
    return "none";
}

const std::string tail_and_pads = R"(
  tail:
    receptacle: ffc-0.50-bottom
    positions: 4
    first-contact: left
    footprint: Buoy:FFC_4
    shell: [MP2, MP1]
    wired: [GND, SDA, open, SCL]
  sensor: {pads: [SCL, SDA, GND], footprint: Buoy:Pads_3, part: Solder pads}
)";

}  // namespace

// RFC 9562, appendix A.4: name space of domain names, "www.example.com".
TEST_CASE("an identifier is the one RFC 9562 gives for its test name") {
    CHECK(name_based_uuid("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com") ==
          "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

// Python 3.11, uuid.uuid5(uuid.uuid5(uuid.NAMESPACE_DNS, "pinfold.netlist"), "buoy/J1").
TEST_CASE("a component's identifier follows from the names of its board and reference") {
    const Netlist netlist = netlist_from(tail_and_pads);
    CHECK(netlist.components[0].uuid == "537c77a6-755b-5b4c-a179-46da6c2f2d2f");
    CHECK(netlist.components[1].uuid == "c407f798-5e76-52ab-b542-834ba44578bd");
}

TEST_CASE("an identifier stays when other ports come before its own") {
    const std::string port = "{pads: [SCL, GND], reference: X7}\n";
    const Netlist alone = netlist_from("  a: {pads: [SCL, GND], reference: X1}\n  z: " + port);
    const Netlist later = netlist_from(
        "  a: {pads: [SCL, GND], reference: X1}\n"
        "  b: {pads: [SCL, GND], reference: X3}\n  z: " +
        port);
    CHECK(alone.components.back().uuid == later.components.back().uuid);
}

TEST_CASE("numbers inside names are ordered as numbers") {
    CHECK(natural_less("J2", "J10"));
    CHECK_FALSE(natural_less("J10", "J2"));
    CHECK(natural_less("A9", "A10"));
    CHECK(natural_less("A12", "B1"));
    CHECK(natural_less("A2C", "A3B"));
    CHECK(natural_less("J", "J1"));
    CHECK(natural_less("99999999999999999998", "99999999999999999999"));
    CHECK(natural_less("J01", "J1"));
    CHECK_FALSE(natural_less("J1", "J01"));
    CHECK_FALSE(natural_less("J1", "J1"));
}

TEST_CASE("a port without a reference takes the next free J") {
    const Netlist netlist = netlist_from(R"(
  a: {pads: [SCL, GND]}
  b: {pads: [SCL, GND], reference: J1}
  c: {pads: [SCL, GND], reference: J3}
  d: {pads: [SCL, GND]}
)");
    CHECK(references(netlist) == std::vector<std::string>{"J1", "J2", "J3", "J4"});
    CHECK(netlist.components[0].port == "b");
    CHECK(netlist.components[1].port == "a");
    CHECK(netlist.components[3].port == "d");
}

TEST_CASE("one reference on two ports is refused with both places") {
    CHECK(complaint([] {
              netlist_from(
                  "  a: {pads: [SCL, GND], reference: J1}\n"
                  "  b: {pads: [SCL, GND], reference: J1}\n");
          }) ==
          R"(input:5:3: error: reference 'J1' is on two ports of buoy: a and b [reference-twice]
      b: {pads: [SCL, GND], reference: J1}
      ^
input:4:3: note: first here
      a: {pads: [SCL, GND], reference: J1}
      ^
)");
}

TEST_CASE("a reference that netlists keep for symbols is refused") {
    CHECK(
        complaint([] {
            netlist_from(
                "  a: {pads: [SCL, GND], reference: '#J1'}\n"
                "  b: {pads: [SCL, GND]}\n");
        }) ==
        R"(input:4:3: error: reference '#J1' starts with #, which netlists keep for symbols without a part; write one such as J1 [reference-virtual]
      a: {pads: [SCL, GND], reference: '#J1'}
      ^
)");
}

TEST_CASE("shield and mounting pads lie on the board's ground") {
    const Netlist netlist = netlist_from(tail_and_pads);
    CHECK(net_of(netlist, "J1", "MP1") == "GND: J1.1 J1.MP1 J1.MP2 J2.3");
    CHECK(netlist.components[0].pads.back().label == "MP2");
}

TEST_CASE("shield pads of a board without a ground make one") {
    const Netlist netlist = netlist_from(R"(
  a: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, shell: [MP1, MP2, MP1],
      wired: [A, B, C, D]}
  b: {pads: [A, B, C, D]}
)");
    CHECK(net_of(netlist, "J1", "MP1") == "GND: J1.MP1 J1.MP2");
}

TEST_CASE("a shield pad named like a contact is refused") {
    CHECK(complaint([] {
              netlist_from(R"(
  a: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, shell: ['4'],
      wired: [A, B, C, D]}
  b: {pads: [A, B, C, D]}
)");
          }) ==
          R"(input:5:3: error: '4' cannot be a shield pad of a: it is a contact already [shell-name]
      a: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, shell: ['4'],
      ^
)");
}

TEST_CASE("a contact wired to nothing is a net of its own named after reference and pad") {
    const Netlist netlist = netlist_from(tail_and_pads);
    CHECK(net_of(netlist, "J1", "3") == "unconnected-(J1-Pad3): J1.3");
    CHECK(netlist.nets.back().unconnected);
}

// Contact 14 of HDMI A is the utility line: HDMI Specification 1.4, Type A pin assignment.
TEST_CASE("an open contact of a known connector is named after its signal too") {
    const Netlist netlist = netlist_from(R"(
  plug:
    connector: hdmi-a plug
    wired: [D2+, GND, D2-, D1+, GND, D1-, D0+, GND, D0-, CK+, GND, CK-, CEC, open, SCL, SDA, GND,
            5V, HPD]
  pads: {pads: [D2+, D2-, D1+, D1-, D0+, D0-, CK+, CK-, CEC, SCL, SDA, GND, 5V, HPD]}
)");
    CHECK(net_of(netlist, "J1", "14") == "unconnected-(J1-UTIL-Pad14): J1.14");
    CHECK(net_of(netlist, "J1", "SH1") ==
          "GND: J1.2 J1.5 J1.8 J1.11 J1.17 J1.SH1 J1.SH2 J1.SH3 J1.SH4 J2.12");
    CHECK(netlist.components[0].pads[1].function == "D2S");
}

// The USB Type-C plug has no metal at B6 and B7: USB Type-C cable and connector specification.
TEST_CASE("a contact the part has no metal for is no pad") {
    const Netlist netlist = netlist_from(R"(
  plug: {connector: usb-c plug}
  pads: {pads: [VBUS, GND, D+, D-]}
)");
    CHECK(net_of(netlist, "J1", "B6") == "none");
    CHECK(net_of(netlist, "J1", "B7") == "none");
    CHECK(net_of(netlist, "J1", "A6") == "D+: J1.A6 J2.3");
    CHECK(netlist.components[0].pads.size() == 22 + 4);
}

TEST_CASE("nets that share a name are told apart by a number") {
    Design design;
    Board board;
    board.name = "twin";
    Port port;
    port.name = "row";
    for (const std::size_t net : {0u, 1u, 2u}) {
        port.contacts.push_back({std::to_string(net + 1), "CLK", {}, net, false, {}});
    }
    board.ports = {port};
    board.nets = {{"CLK", false, {}, {}, {}, {}},
                  {"CLK", false, {}, {}, {}, {}},
                  {"CLK_2", false, {}, {}, {}, {}}};
    design.boards = {board};

    const Netlist netlist = netlist_of(design, 0);
    CHECK(net_of(netlist, "J1", "1") == "CLK: J1.1");
    CHECK(net_of(netlist, "J1", "2") == "CLK_3: J1.2");
    CHECK(net_of(netlist, "J1", "3") == "CLK_2: J1.3");
}

TEST_CASE("a footprint that is missing or names no library is remarked on") {
    const Netlist netlist = netlist_from(
        "  a: {pads: [SCL, GND]}\n"
        "  b: {pads: [SCL, GND], footprint: Pads_2}\n");
    REQUIRE(netlist.remarks.size() == 2);
    CHECK(netlist.components[0].footprint.empty());
    CHECK(
        to_text(netlist.remarks[0]) ==
        R"(input:4:3: warning: a (J1) has no footprint in the netlist; name one on the board, such as 'footprint: Library:Name' [footprint-missing]
      a: {pads: [SCL, GND]}
      ^
)");
    CHECK(
        to_text(netlist.remarks[1]) ==
        R"(input:5:3: warning: footprint 'Pads_2' of b (J2) names no library; layout programs look for 'Library:Name' [footprint-library]
      b: {pads: [SCL, GND], footprint: Pads_2}
      ^
)");
    CHECK(netlist_from(tail_and_pads).remarks.empty());
}

TEST_CASE("two netlists are alike if they join the same pads, whatever the nets are called") {
    const Netlist one = netlist_from(tail_and_pads);
    Netlist renamed = one;
    for (auto& net : renamed.nets) net.name += "x";
    std::reverse(renamed.nets.begin(), renamed.nets.end());
    CHECK(same_partition(one, renamed));

    Netlist moved = one;
    std::swap(moved.nets[0].nodes[0], moved.nets[1].nodes[0]);
    CHECK_FALSE(same_partition(one, moved));

    Netlist lost = one;
    lost.nets.back().nodes.clear();
    CHECK_FALSE(same_partition(one, lost));
}
