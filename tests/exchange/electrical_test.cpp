#include "exchange/electrical_test.hpp"

#include <catch2/catch.hpp>

#include "exchange/buoy.hpp"
#include "exchange/read_netlist.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Netlist read(const std::string& text) { return read_electrical_test(text_source(text)); }

std::string refused(const std::string& text) {
    return complaint([&] { read(text); });
}

/// `J1-1 J2-4 | J1-2`: the nets as sets of pads.
std::string joined(const Netlist& netlist) {
    std::string text;
    for (const Netlist::Net& net : netlist.nets) {
        text += text.empty() ? "" : " | ";
        for (std::size_t i = 0; i < net.nodes.size(); ++i) {
            text += (i > 0 ? " " : "") + net.nodes[i].reference + "-" + net.nodes[i].pad;
        }
    }
    return text;
}

/// The buoy's board with its pads in places.
Board placed_buoy() {
    Board board;
    Port tail;
    tail.name = "tail";
    tail.shell = {"MP1"};
    tail.placing = Placing{Millimetres(10), Millimetres(4), 90, false, {}, {}, {}, {}, {}};
    for (int n = 1; n <= 3; ++n) {
        tail.placing->pads.push_back({std::to_string(n), Millimetres(0.5 * n), Millimetres(0)});
    }
    Port sensor;
    sensor.name = "sensor";
    sensor.placing =
        Placing{Millimetres(-1.5), Millimetres(0), 0, true, Millimetres(0.9), {}, {}, {}, {}};
    sensor.placing->pads = {{"1", Millimetres(-2), Millimetres(1)},
                            {"2", Millimetres(2), Millimetres(1)}};
    board.ports = {tail, sensor};
    return board;
}

}  // namespace

// Columns: IPC-D-356A by an application note on it (net 4-17, reference 21-26, dash 27, contact
// 28-31, drill 33-38, side 39-41, X 42-49, Y 50-57, turn 68-71); values invented.
TEST_CASE("an electrical test has every pad in its columns") {
    const Board board = placed_buoy();
    const std::string text = electrical_test(placed_part(buoy(), board), board);
    CHECK(text ==
          "P  JOB   buoy\n"
          "P  CODE  00\n"
          "P  UNITS CUST 1\n"
          "P  TITLE Buoy \"north\"\n"
          "P  NUM   buoy\n"
          "P  VER   IPC-D-356A\n"
          "C  lengths in 0.001 mm; angles in degrees, counter-clockwise\n"
          "C  no place is known of shield pad MP1 of J1; it is not tested\n"
          "P  IMAGE PRIMARY\n"
          "327D+/D-            J1    -2          A01X+010000Y+005000          R090\n"
          "317D+/D-            J2    -1    D0900PA00X+000500Y+001000          R000\n"
          "327GND              J1    -1          A01X+010000Y+004500          R090\n"
          "317GND              J2    -2    D0900PA00X-003500Y+001000          R000\n"
          "327N/C              J1    -3          A01X+010000Y+005500          R090\n"
          "999\n");
}

TEST_CASE("what is written is read back as the same nets") {
    const Board board = placed_buoy();
    Netlist netlist = placed_part(buoy(), board);
    const std::string long_name(100, 'x');
    const std::string name =
        GENERATE_COPY(std::string("DATA"), long_name, std::string("a b"), std::string("N/C"),
                      std::string("VIA"), std::string("N0000"), std::string("日本"));
    netlist.nets[0].name = name;
    CAPTURE(name);
    const Netlist back = read(electrical_test(netlist, board));
    CHECK(same_partition(netlist, back));
    CHECK(back.board == "buoy");
    CHECK(back.title == "Buoy \"north\"");
}

TEST_CASE("a long net name comes back whole, up to the columns of its alias") {
    const Board board = placed_buoy();
    Netlist netlist = placed_part(buoy(), board);
    netlist.nets[0].name = "CAMERA_LINK_LANE_0_PLUS";
    CHECK(read(electrical_test(netlist, board)).nets[0].name == "CAMERA_LINK_LANE_0_PLUS");
}

TEST_CASE("what the columns cannot hold is refused") {
    Board board = placed_buoy();
    Netlist netlist = placed_part(buoy(), board);
    netlist.components[0].reference = "CONN1234";
    CHECK(complaint([&] { electrical_test(netlist, board); }) ==
          "error: reference 'CONN1234' of tail does not fit: IPC-D-356A has 6 columns of ASCII for "
          "it, without blanks [test-columns]\n");
    board.ports[1].placing->x = Millimetres(2000);
    CHECK(complaint([&] {
              electrical_test(buoy(), board);
          }).starts_with("error: contact 1 of sensor lies a metre or more from the origin"));
}

TEST_CASE("contacts without a place are refused by name") {
    Board board = placed_buoy();
    board.ports[0].placing->pads.pop_back();
    board.ports[1].placing.reset();
    CHECK(complaint([&] { placed_part(buoy(), board); }) ==
          "error: no place is known of contact 3 of tail; name it in 'rows' or 'pads-at' "
          "[pad-unplaced]\n"
          "error: sensor does not say where its pads lie; write such as 'placing: {x: 10 mm, "
          "y: 4 mm, angle: 0, side: top}' [pad-unplaced]\n");
}

// Forms: the application note's examples; aliases in comments, blank-padded numbers and shifted
// columns as files of several programs have them (common practice).
TEST_CASE("files of other hands are read") {
    CHECK(
        joined(read("C  by hand\n"
                    "P  JOB   x\n"
                    "P  UNITS CUST 0\n"
                    "\n"
                    "327GND              J1    -1          A01X 034000Y+  1200X0300Y0600R000 S1\r\n"
                    "317GND              J2    -4    D  40PA00X 001000Y 001000X0600Y0000R000 S0\n"
                    "017                 J3    -1    D  40PA00X 001000Y 001000\n"
                    "317GND              VIA   -    MD0120PA00X 001000Y 001000\n"
                    "367N/C              MH1   -     D1250UA00X 001000Y 001000\n"
                    "327N/C              J1    -2          A01X 034000Y 001200\n"
                    "327N/C              J1    -3          A01X 034000Y 001200\n"
                    "378GND              L01 X0100 X001000Y001000 X002000\n"
                    "999\n"
                    "327LATE             J9    -1          A01X 034000Y 001200\n")) ==
        "J1-1 J2-4 J3-1 | J1-2 | J1-3");
    const Netlist aliased = read(
        "C  NNAMEn0001 VIDEO_CLOCK_PLUS_OF_CAMERA\n"
        "327n0001            J1    -1          A01X+000000Y+000000\n");
    CHECK(aliased.nets[0].name == "VIDEO_CLOCK_PLUS_OF_CAMERA");
    const Netlist shifted =
        read("327NET_A            LONGREF12 -7          A01X+000000Y+000000\n999\n");
    CHECK(joined(shifted) == "LONGREF12-7");
    CHECK(rules_of(shifted.remarks) == std::vector<std::string>{"netlist-columns"});
}

// The last record is 999 in the application note's own example; a file cut short has none.
TEST_CASE("a file that ends without its last record is said to be cut") {
    const std::string record = "327GND              J1    -1          A01X+000000Y+000000\n";
    CHECK(read(record + "999\n").remarks.empty());
    const Netlist cut = read(record);
    CHECK(rules_of(cut.remarks) == std::vector<std::string>{"netlist-end"});
    CHECK(cut.remarks[0].at.line == 2);
}

TEST_CASE("a pad given twice on one net is one, unconnected once and connected once too") {
    CHECK(joined(read("327N/C              J1    -1          A01X+000000Y+000000\n"
                      "327GND              J1    -1          A01X+000000Y+000000\n"
                      "327GND              J1    -1          A02X+000000Y+000000\n")) == "J1-1");
    CHECK(refused("327A                J1    -1          A01X+000000Y+000000\n"
                  "327B                J1    -1          A01X+000000Y+000000\n")
              .starts_with("input:2:1: error: pad 1 of J1 is on two nets, A and B "
                           "[netlist-pad-twice]\n"));
}

TEST_CASE("an electrical test that cannot be read says where and what would be right") {
    CHECK(refused("C  nothing\n").starts_with("input:1:1: error: this file has no test record"));
    CHECK(refused("327GND              J1     1          B01\n")
              .starts_with("input:1:1: error: this test record names no pad; the reference stands "
                           "in columns 21 to 26"));
    CHECK(refused("327                 J1    -1          A01X+000000Y+000000\n")
              .starts_with("input:1:1: error: this test record names no net"));
}

TEST_CASE("a netlist's form is known by its first sign") {
    const auto form = [](const std::string& text) { return read_netlist(text_source(text)).form; };
    const std::string pad = "327GND              J1    -1          A01X+000000Y+000000\n";
    CHECK(form("\n\nP  JOB   x\n" + pad) == "IPC-D-356 test file");
    CHECK(form(pad) == "IPC-D-356 test file");
    CHECK(complaint([&] { read_netlist(text_source("hello")); }).find("this is no netlist") !=
          std::string::npos);
}

TEST_CASE("an electrical test with any byte changed gives a netlist or a complaint") {
    const Board board = placed_buoy();
    const std::string sound = electrical_test(placed_part(buoy(), board), board);
    const std::string bytes("()\"\\ \n#-\0\xff\xC2", 11);
    for (std::size_t at = 0; at < 3 * sound.size(); ++at) {
        std::string changed = sound;
        changed[at % sound.size()] = bytes[(at + at / sound.size()) % bytes.size()];
        CHECK(is_answered([&] { read(changed); }));
    }
}
