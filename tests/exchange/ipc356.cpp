#include "exchange/ipc356.hpp"

#include <catch2/catch.hpp>

#include "exchange/read_netlist.hpp"
#include "support.hpp"

using namespace pinfold;

// Written by hand from the columns of application note AN40: net 4-17, reference 21-26, a hyphen in
// 27, pin 28-31.
const std::string by_hand =
    "P  JOB   TIDE\r\nP  UNITS CUST 1\r\nP  VER   IPC-D-356A\r\nP  IMAGE PRIMARY\r\n"
    "P  NNAMEm0000 A_NET_WITH_A_LONG_NAME\r\n"
    "327m0000            J1    -1         A01X+001000Y+002000X0300Y1200R000 S0\r\n"
    "317m0000            J2    -A6   D0900PA00X 34000Y  2000X1500Y0000\r\n"
    "327N/C              J1    -2         A01X+001500Y+002000\r\n"
    "317GND              VIA        D0300PA00X+001700Y+002000\r\n"
    "017GND              J2    -B12\r\n"
    "999\r\n327GND              J9    -9\r\n";

TEST_CASE("an electrical test file is read by its columns, its content tells the form") {
    const auto [form, netlist] = read_netlist(text_source(by_hand));
    CHECK(form == "IPC-D-356 test file");
    REQUIRE(netlist.nets.size() == 3);
    CHECK(netlist.nets[0].name == "A_NET_WITH_A_LONG_NAME");
    CHECK(netlist.nets[0].nodes == std::vector<Netlist::Node>{{"J1", "1"}, {"J2", "A6"}});
    CHECK(netlist.nets[1].unconnected);
    CHECK(netlist.nets[1].nodes == std::vector<Netlist::Node>{{"J1", "2"}});
    CHECK(netlist.nets[2].nodes == std::vector<Netlist::Node>{{"J2", "B12"}});
    CHECK(netlist.nets[2].nodes[0].at.line == 10);
    CHECK(netlist.components.size() == 2);
}

TEST_CASE("a test file with any byte changed gives a netlist or a complaint") {
    const std::string bytes("()\"\\ \n#-\0\xff\xC2", 11);
    for (std::size_t at = 0; at < 3 * by_hand.size(); ++at) {
        std::string changed = by_hand;
        changed[at % by_hand.size()] = bytes[(at + at / by_hand.size()) % bytes.size()];
        try {
            read_netlist(text_source(changed));
        } catch (const InputError& error) {
            CHECK_FALSE(error.findings().empty());
        }
    }
}

TEST_CASE("a file of another kind is refused") {
    CHECK(complaint([&] { read_netlist(text_source("hello")); }).find("this is no netlist") !=
          std::string::npos);
    CHECK(complaint([&] {
              read_netlist(text_source("C  nothing\n"));
          }).find("holds no test record") != std::string::npos);
}
