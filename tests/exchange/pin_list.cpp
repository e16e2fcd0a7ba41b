// The form of a pin list is ours; the quoting is RFC 4180, section 2.
#include "exchange/pin_list.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

using namespace pinfold;

namespace {

const std::vector<PartWords> tail_and_plug{{"J1", "ffc-0.50-bottom"}, {"J2", "hdmi-a plug"}};

Netlist read(const std::string& text) {
    Library library = shipped_library();
    return read_pin_list(text_source(text), tail_and_plug, library);
}

std::string refused(const std::string& text) {
    return complaint([&] { read(text); });
}

}  // namespace

TEST_CASE("pin lists with commas, semicolons, quotes, headings and spellings mean the same") {
    // HDMI Type A, contacts 1, 3 and 16 (tests/published/hdmi.cpp names the table).
    const Netlist plain = read("1,1\n2,3\n3,16\n4,\n");
    for (const char* text : {
             "1,D2+\n2,D2-\n3,SDA\n4,open\n",
             "1;TMDS_D2_P\r\n2;D2-\r\n3;\"SDA\"\r\n4;-",
             "\xEF\xBB\xBF# drawn by hand\n\ntail,plug\n1,D2+\n2,D2-\n3,SDA\n4,NC\n",
             "J2;J1\nD2+;1\nD2-;2\nSDA;3\nopen;4\n",
             "\"1\";D2+\n\"2\";D2-\n3;SDA\n4;\n",
             "\"1\",\"D2+\",\n\"2\",\"D2-\",\n\"3\",\" SDA \",\n\"4\",\"\",\n",
         }) {
        INFO(text);
        CHECK(same_partition(read(text), plain));
    }
    REQUIRE(plain.nets.size() == 4);
    CHECK(plain.nets[2].nodes == std::vector<Netlist::Node>{{"J1", "3"}, {"J2", "16"}});
    CHECK(plain.nets[2].nodes[1].at.line == 3);
    CHECK(plain.nets[2].nodes[1].at.column == 3);
}

TEST_CASE("ground in a pin list means every ground contact") {
    // HDMI Type A: grounds and pair shields on 2, 5, 8, 11 and 17.
    const Netlist netlist = read("1,GND\n2,D2+\n3,D2-\n4,CEC\n");
    CHECK(netlist.nets[0].nodes.size() == 6);
}

TEST_CASE("a pin list that is broken is refused at its place") {
    CHECK(refused("1,D2+\n2,D9+\n")
              .find("input:2:3: error: J2 (hdmi-a plug) has no contact or "
                    "signal 'D9+' (did you mean 'D2+'?) [contact-unknown]") != std::string::npos);
    CHECK(refused("1,D2+\n2\n").find("input:2:1") != std::string::npos);
    CHECK(refused("1,D2+\n2,D2-,x\n").find("not 3") != std::string::npos);
    CHECK(refused("1,\"D2+\n").find("not closed on its line") != std::string::npos);
    CHECK(refused("1,\"D2+\"x\n").find("after a closing quote") != std::string::npos);
    CHECK(refused("1,D2\"+\n").find("inside a cell") != std::string::npos);
    CHECK(refused("").find("no rows") != std::string::npos);
    CHECK(refused(",\n").find("names no contact") != std::string::npos);
    CHECK(refused("1,\x01\n").find("control character") != std::string::npos);
}

TEST_CASE("a pin list is told from the netlists by its first line") {
    const auto looks = [](const std::string& text) { return is_pin_list(*text_source(text)); };
    CHECK(looks("1,D2+\n"));
    CHECK(looks("contact;signal\n"));
    CHECK(looks("# remark\n\n317,D2+\n"));
    CHECK_FALSE(looks("(export (version D), (x;y))"));
    CHECK_FALSE(looks("<?xml version=\"1.0\"?><a b=\",\"/>"));
    CHECK_FALSE(looks("P  JOB a, b\n"));
    CHECK_FALSE(looks("C  made by hand, once\n"));
    CHECK_FALSE(looks("327NET,1            J1    -1\n"));
    CHECK_FALSE(looks(""));
}
