#include "exchange/kicad_text.hpp"

#include <catch2/catch.hpp>

#include "exchange/buoy.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Netlist read(const std::string& text) { return read_kicad_text(text_source(text)); }

}  // namespace

// The grammar of the program's manual for series 6 and later; values invented.
TEST_CASE("a netlist is written as a quoted S-expression in a fixed order") {
    CHECK(kicad_text(buoy()) == R"x((export (version "E")
  (design
    (source "buoy.yaml")
    (date "")
    (tool "pinfold")
    (sheet (number "1") (name "/") (tstamps "/")
      (title_block
        (title "Buoy \"north\""))))
  (components
    (comp (ref "J1")
      (value "4-way (0.5)")
      (footprint "Buoy:FFC_4")
      (fields
        (field (name "Port") "tail"))
      (libsource (lib "pinfold") (part "buoy-J1") (description "4-way (0.5)"))
      (sheetpath (names "/") (tstamps "/"))
      (tstamps "537c77a6-755b-5b4c-a179-46da6c2f2d2f"))
    (comp (ref "J2")
      (value "Pads")
      (footprint "")
      (fields
        (field (name "Port") "sensor"))
      (libsource (lib "pinfold") (part "buoy-J2") (description "Pads"))
      (sheetpath (names "/") (tstamps "/"))
      (tstamps "c407f798-5e76-52ab-b542-834ba44578bd")))
  (libparts
    (libpart (lib "pinfold") (part "buoy-J1")
      (pins
        (pin (num "1") (name "GND") (type "passive"))
        (pin (num "2") (name "D+/D-") (type "passive"))
        (pin (num "3") (name "") (type "passive"))
        (pin (num "MP1") (name "SHIELD") (type "passive"))))
    (libpart (lib "pinfold") (part "buoy-J2")
      (pins
        (pin (num "1") (name "D+/D-") (type "passive"))
        (pin (num "2") (name "GND") (type "passive")))))
  (libraries
    (library (logical "pinfold")))
  (nets
    (net (code "1") (name "D+{slash}D-")
      (node (ref "J1") (pin "2") (pinfunction "D+/D-") (pintype "passive"))
      (node (ref "J2") (pin "1") (pinfunction "D+/D-") (pintype "passive")))
    (net (code "2") (name "GND")
      (node (ref "J1") (pin "1") (pinfunction "GND") (pintype "passive"))
      (node (ref "J1") (pin "MP1") (pinfunction "SHIELD") (pintype "passive"))
      (node (ref "J2") (pin "2") (pinfunction "GND") (pintype "passive")))
    (net (code "3") (name "unconnected-(J1-Pad3)")
      (node (ref "J1") (pin "3") (pintype "passive+no_connect")))))
)x");
}

TEST_CASE("a netlist comes back from its text") {
    const Netlist back = read(kicad_text(buoy()));
    CHECK(same_partition(back, buoy()));
    REQUIRE(back.components.size() == 2);
    CHECK(back.components[0].reference == "J1");
    CHECK(back.components[0].value == "4-way (0.5)");
    CHECK(back.components[0].footprint == "Buoy:FFC_4");
    CHECK(back.components[0].uuid == "537c77a6-755b-5b4c-a179-46da6c2f2d2f");
    CHECK(back.components[0].pads.size() == 4);
    CHECK(back.components[1].footprint.empty());
    CHECK(back.nets[0].name == "D+/D-");
    CHECK_FALSE(back.nets[0].unconnected);
    CHECK(back.nets[2].unconnected);
    CHECK(back.source == "buoy.yaml");
    CHECK(back.remarks.empty());
}

TEST_CASE("a netlist with hostile names comes back from its text") {
    const std::string name =
        GENERATE(as<std::string>{}, "\"", "\\", "\\\"", "a\\", "(", ")))", "a\nb", "a\r\nb", "\t",
                 "</export>", "]]>&amp;", "#x", "'", "`", ";", "\\n", "\\x41", "%s{}", " ",
                 "\xE2\x88\x92\xF0\x9F\x98\x80", std::string(60000, 'x'), std::string(6000, '"'));
    CAPTURE(name.substr(0, 40));
    const Netlist netlist = buoy_named(name);
    const Netlist back = read(kicad_text(netlist));
    CHECK(same_partition(back, netlist));
    CHECK(back.components[0].reference == "J" + name);
    CHECK(back.components[0].value == name);
    CHECK(back.components[1].footprint == name);
    CHECK(back.nets[1].name == "GND" + name);
    CHECK(back.source == name);
}

TEST_CASE("a text no netlist can hold is refused before anything is written") {
    Netlist netlist = buoy();
    const auto [text, said] = GENERATE(table<std::string, std::string>(
        {{std::string("a\0b", 3),
          "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {"a\x1b[2J", "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {"a\x7f", "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {"a\xC2\x85", "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {"a\xEF\xBF\xBE",
          "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {"a\xff", "holds a control character or is not UTF-8, which a netlist cannot hold"},
         {std::string(65537, 'x'), "is longer than the 64 KiB a netlist can hold"}}));
    netlist.components[1].footprint = text;
    CHECK(complaint([&] { kicad_text(netlist); }) ==
          "error: the text of 'footprint' " + said + " [netlist-text]\n");
}

TEST_CASE("a text of 64 KiB is held, also once it is escaped") {
    Netlist netlist = buoy();
    netlist.components[0].value = std::string(65536, '"');
    CHECK(read(kicad_text(netlist)).components[0].value.size() == 65536);
    netlist.nets[0].name = std::string(65536, '/');
    CHECK(complaint([&] { kicad_text(netlist); }) ==
          "error: the text of 'name' is longer than the 64 KiB a netlist can hold "
          "[netlist-text]\n");
}
