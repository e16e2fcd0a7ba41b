#include <catch2/catch.hpp>

#include "design/told.hpp"

namespace pinfold {
namespace {

using Words = std::vector<std::string>;

Board board_of(const std::string& text) {
    Library library = shipped_library();
    Design design;
    read_board(text_source("pinfold-board: 1\n" + text), "it", design, library);
    return design.boards.front();
}

std::string refused(const std::string& text) {
    return complaint([&] { board_of(text); });
}

/// What the contacts of one port are wired to.
Words nets(const Board& board, const std::string& port) {
    Words told;
    for (const PortContact& contact : board.ports.at(*board.find_port(port)).contacts) {
        told.push_back(contact.net ? board.nets[*contact.net].name : "-");
    }
    return told;
}

const std::string plug = "  plug: usb2-a plug\n";
const std::string hdmi = "  plug: hdmi-a plug\n";

std::string pads(const std::string& list) { return "  out: {pads: [" + list + "]}\n"; }

}  // namespace

// Rules: those written in design/copper.hpp. Scenarios: invented.
TEST_CASE("a connector without a list is wired as its table says") {
    const Board board = board_of("ports:\n" + plug + pads("VBUS, D-, D+, GND"));
    CHECK(nets(board, "plug") == Words{"VBUS", "D-", "D+", "GND"});
    CHECK(nets(board, "out") == Words{"VBUS", "D-", "D+", "GND"});
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(board.ports[0].contacts[i].net == board.ports[1].contacts[i].net);
    }
    CHECK(board.nets.size() == 4);
}

TEST_CASE("a signal is known in every usual spelling") {
    const Board board = board_of("ports:\n" + hdmi +
                                 pads("TMDS_D2_P, \"D2\xE2\x88\x92\", tmds data1+, d1n, Hot Plug "
                                      "Detect, +5V, \"CK\xEF\xBC\x8B\", open"));
    CHECK(nets(board, "out") == Words{"D2+", "D2-", "D1+", "D1-", "HPD", "5V", "CK+", "-"});
}

TEST_CASE("an entry names another contact by its label or its signal") {
    const Board board = board_of("ports:\n" + plug + pads("plug.1, plug.D-, plug.D_P, plug.4"));
    CHECK(nets(board, "out") == Words{"VBUS", "D-", "D+", "GND"});
    CHECK(board.nets[*board.ports[1].contacts[3].net].ground);
}

TEST_CASE("an entry may name a contact of its own port or of one further down") {
    const Board board =
        board_of("ports:\n  a: {pads: [b.2, open]}\n  b: {pads: [open, open, b.1]}\n");
    CHECK(nets(board, "a") == Words{"a.1", "-"});
    CHECK(nets(board, "b") == Words{"b.1", "a.1", "b.1"});
}

TEST_CASE("grounds of a board are one net whatever they are called") {
    const Board board =
        board_of("ports:\n" + hdmi + pads("GND, D2S, VSS, TMDS Data1 Shield, DDC/CEC Ground, 0V"));
    for (const std::string& net : nets(board, "out")) CHECK(net == "GND");
    CHECK(nets(board, "plug")[1] == "GND");
    CHECK(nets(board, "plug")[16] == "GND");
}

TEST_CASE("separate grounds keep every pair's shield to itself") {
    const Board board = board_of("ground: separate\nports:\n" + hdmi + pads("GND, D2S, D1S, CKS"));
    CHECK(nets(board, "out") == Words{"GND", "D2S", "D1S", "CKS"});
    CHECK(nets(board, "plug")[1] == "D2S");
    CHECK(nets(board, "plug")[7] == "D0S");
    CHECK(nets(board, "plug")[16] == "GND");
    for (const Net& net : board.nets) {
        if (net.name == "D2S" || net.name == "GND") CHECK(net.ground);
    }
}

TEST_CASE("a name of the board's own joins all contacts that have it") {
    const Board board = board_of(
        "ports:\n  a: {pads: [Reset_Out, lamp, open]}\n  b: {pads: [LAMP, resetout, \"\"]}\n");
    CHECK(nets(board, "a") == Words{"Reset_Out", "lamp", "-"});
    CHECK(nets(board, "b") == Words{"lamp", "Reset_Out", "-"});
}

TEST_CASE("supplies of opposite sign stay two") {
    const Board board = board_of("ports:\n  a: {pads: [+12V, -12V]}\n  b: {pads: [-12V, 12V]}\n");
    CHECK(nets(board, "a")[0] != nets(board, "a")[1]);
    CHECK(nets(board, "b")[0] == nets(board, "a")[1]);
    CHECK(nets(board, "b")[1] == nets(board, "a")[0]);
}

TEST_CASE("a name that stands alone is a slip of the pen") {
    CHECK(
        refused("ports:\n" + plug + pads("VBUS, D-, D+, GNDD")) ==
        "input:4:30: error: 'GNDD' stands on this contact alone: no connector here bears it and no "
        "other contact names it (did you mean 'GND'?); a contact that is wired to nothing is "
        "'open' [signal-alone]\n"
        "      out: {pads: [VBUS, D-, D+, GNDD]}\n"
        "                                 ^\n");
    CHECK(refused("ports:\n" + plug + pads("opn")).find("(did you mean 'open'?)") !=
          std::string::npos);
}

TEST_CASE("on a board of one port a name may stand alone") {
    CHECK(nets(board_of("ports:\n" + pads("A, B, A")), "out") == Words{"A", "B", "A"});
}

TEST_CASE("a name that two connectors bear is in doubt") {
    const std::string two = "ports:\n  one: usb2-a plug\n  two: usb2-micro-b receptacle\n";
    CHECK(refused(two + pads("D+, GND")) ==
          "input:5:16: error: 'D+' stands on more than one connector of this board; write one of: "
          "one.D+, two.D+ [signal-doubtful]\n"
          "      out: {pads: [D+, GND]}\n"
          "                   ^\n");
    const Board board = board_of(two + pads("one.D+, two.D+, one.VBUS, GND, ID"));
    CHECK(nets(board, "out") == Words{"D+", "two.D+", "VBUS", "GND", "ID"});
    CHECK(nets(board, "one") == Words{"VBUS", "D-", "D+", "GND"});
    CHECK(nets(board, "two") == Words{"two.VBUS", "two.D-", "two.D+", "ID", "GND"});
}

TEST_CASE("a long list of doubtful choices is cut") {
    std::string many = "ports:\n";
    for (int i = 0; i < 20; ++i) many += "  p" + std::to_string(i) + ": usb2-a plug\n";
    const std::string said = refused(many + pads("D+"));
    CHECK(said.find("p0.D+, p1.D+") != std::string::npos);
    CHECK(said.find("p9.D+") == std::string::npos);
}

TEST_CASE("two signals that one contact joins are one net") {
    const Board board = board_of(
        "ports:\n  one: usb2-a plug\n  two: usb2-a receptacle\n" +
        std::string("  out: {pads: [one.VBUS, out.1]}\n  loop: {pads: [two.VBUS, loop.1, out.2]}\n"
                    "  tie: {pads: [one.D+, two.D+]}\n  bar: {pads: [tie.1]}\n"));
    CHECK(nets(board, "out")[0] == nets(board, "out")[1]);
    CHECK(nets(board, "loop")[2] == nets(board, "out")[1]);
    CHECK(nets(board, "loop")[0] != nets(board, "out")[0]);
    CHECK(nets(board, "bar")[0] == nets(board, "tie")[0]);
}

TEST_CASE("a connector like another is wired signal to signal") {
    const Board board =
        board_of("ports:\n  in: hdmi-a plug\n  out: {connector: hdmi-d receptacle, like: in}\n");
    const Words in = nets(board, "in");
    const Words out = nets(board, "out");
    CHECK(in[0] == "D2+");
    CHECK(out[2] == "D2+");
    CHECK(out[0] == "HPD");
    CHECK(out[18] == "5V");
    CHECK(board.ports[0].contacts[17].net == board.ports[1].contacts[18].net);
    // HDMI has no second link: those contacts of a DVI connector stay open (DVI 1.0).
    const Board dvi =
        board_of("ports:\n  in: hdmi-a plug\n  out: {connector: dvi-d receptacle, like: in}\n");
    CHECK(nets(dvi, "out")[1] == "D2+");
    CHECK(nets(dvi, "out")[3] == "-");
    CHECK(nets(dvi, "out")[7] == "-");
}

TEST_CASE("only a connector can be like another connector with a table") {
    const std::string why =
        "must name another connector of this board that is wired by its pin "
        "table [copper-like]\n";
    for (const char* ports :
         {"  in: hdmi-a plug\n  out: {connector: hdmi-d receptacle, like: inn}\n",
          "  in: hdmi-a plug\n  out: {connector: hdmi-d receptacle, like: out}\n",
          "  in: {pads: [A, A]}\n  out: {connector: hdmi-d receptacle, like: in}\n",
          "  in: hdmi-a plug\n  out: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: "
          "left, "
          "like: in}\n"}) {
        CAPTURE(ports);
        CHECK(refused(std::string("ports:\n") + ports).find(why) != std::string::npos);
    }
}

TEST_CASE("an entry that names no contact of a port is refused with the nearest") {
    CHECK(refused("ports:\n" + plug + pads("plug.VBSU, plug.5")) ==
          "input:4:16: error: plug has no contact or signal 'VBSU' (did you mean 'VBUS'?) "
          "[contact-unknown]\n"
          "      out: {pads: [plug.VBSU, plug.5]}\n"
          "                   ^\n"
          "input:4:27: error: plug has no contact or signal '5' [contact-unknown]\n"
          "      out: {pads: [plug.VBSU, plug.5]}\n"
          "                              ^\n");
}

TEST_CASE("a name with a point that names no port is a name of the board's own") {
    const Board board = board_of("ports:\n  a: {pads: [3.3V, x.y]}\n  b: {pads: [x.y, +3.3V]}\n");
    CHECK(nets(board, "a") == Words{"3.3V", "x.y"});
    CHECK(nets(board, "b") == Words{"x.y", "3.3V"});
}

TEST_CASE("a trace length belongs to the net of its signal") {
    const Board board = board_of("ports:\n" + plug + pads("VBUS, D-, D+, GND") +
                                 "lengths: {d_p: 12.5 mm, D-: 1.3 cm}\n");
    for (const Net& net : board.nets) {
        if (net.name == "D+") CHECK(net.length == 12.5_mm);
        if (net.name == "D-") CHECK(net.length == 13.0_mm);
        if (net.name == "VBUS") CHECK_FALSE(net.length);
    }
    CHECK(refused("ports:\n" + plug + pads("VBUS, D-, D+, GND") + "lengths: {D2+: 12.5 mm}\n") ==
          "input:5:11: error: no net 'D2+' on this board (did you mean 'D+'?) [signal-unknown]\n"
          "    lengths: {D2+: 12.5 mm}\n"
          "              ^\n");
    CHECK(refused("ports:\n" + plug + pads("VBUS, D-, D+, GND") + "lengths: {D+: 0.5 in}\n") ==
          "input:5:15: error: the length of 'D+' must be a length such as '0.5 mm', not '0.5 in': "
          "that is 12.7 mm [yaml-unit]\n"
          "    lengths: {D+: 0.5 in}\n"
          "                  ^\n");
}

TEST_CASE("a connector with a list of its own is wired by the list alone") {
    const Board board = board_of(
        "ports:\n  a: {connector: usb2-a plug, wired: [P, M, open, M]}\n  b: {pads: [P, M]}\n");
    CHECK(nets(board, "a") == Words{"P", "M", "-", "M"});
    CHECK(board.ports[0].contacts[0].net == board.ports[1].contacts[0].net);
}

}  // namespace pinfold
