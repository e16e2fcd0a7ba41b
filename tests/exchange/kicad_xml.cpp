#include "exchange/kicad_xml.hpp"

#include <catch2/catch.hpp>

#include "exchange/buoy.hpp"
#include "exchange/kicad_text.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Netlist read(const std::string& text) { return read_kicad_xml(text_source(text)); }

std::string refusal(const std::string& text) {
    return complaint([&] { read(text); });
}

}  // namespace

// The mapping of the program's manual: keys become attributes, values stay elements.
TEST_CASE("a netlist is written as XML with keys as attributes") {
    CHECK(kicad_xml(buoy()) == R"x(<?xml version="1.0" encoding="utf-8"?>
<export version="E">
  <design>
    <source>buoy.yaml</source>
    <date />
    <tool>pinfold</tool>
    <sheet number="1" name="/" tstamps="/">
      <title_block>
        <title>Buoy &quot;north&quot;</title>
      </title_block>
    </sheet>
  </design>
  <components>
    <comp ref="J1">
      <value>4-way (0.5)</value>
      <footprint>Buoy:FFC_4</footprint>
      <fields>
        <field name="Port">tail</field>
      </fields>
      <libsource lib="pinfold" part="buoy-J1" description="4-way (0.5)" />
      <sheetpath names="/" tstamps="/" />
      <tstamps>537c77a6-755b-5b4c-a179-46da6c2f2d2f</tstamps>
    </comp>
    <comp ref="J2">
      <value>Pads</value>
      <footprint />
      <fields>
        <field name="Port">sensor</field>
      </fields>
      <libsource lib="pinfold" part="buoy-J2" description="Pads" />
      <sheetpath names="/" tstamps="/" />
      <tstamps>c407f798-5e76-52ab-b542-834ba44578bd</tstamps>
    </comp>
  </components>
  <libparts>
    <libpart lib="pinfold" part="buoy-J1">
      <pins>
        <pin num="1" name="GND" type="passive" />
        <pin num="2" name="D+/D-" type="passive" />
        <pin num="3" name="" type="passive" />
        <pin num="MP1" name="SHIELD" type="passive" />
      </pins>
    </libpart>
    <libpart lib="pinfold" part="buoy-J2">
      <pins>
        <pin num="1" name="D+/D-" type="passive" />
        <pin num="2" name="GND" type="passive" />
      </pins>
    </libpart>
  </libparts>
  <libraries>
    <library logical="pinfold" />
  </libraries>
  <nets>
    <net code="1" name="D+{slash}D-">
      <node ref="J1" pin="2" pinfunction="D+/D-" pintype="passive" />
      <node ref="J2" pin="1" pinfunction="D+/D-" pintype="passive" />
    </net>
    <net code="2" name="GND">
      <node ref="J1" pin="1" pinfunction="GND" pintype="passive" />
      <node ref="J1" pin="MP1" pinfunction="SHIELD" pintype="passive" />
      <node ref="J2" pin="2" pinfunction="GND" pintype="passive" />
    </net>
    <net code="3" name="unconnected-(J1-Pad3)">
      <node ref="J1" pin="3" pintype="passive+no_connect" />
    </net>
  </nets>
</export>
)x");
}

TEST_CASE("both forms of a netlist read alike") {
    const Netlist from_xml = read(kicad_xml(buoy()));
    const Netlist from_text = read_kicad_text(text_source(kicad_text(buoy())));
    CHECK(same_partition(from_xml, buoy()));
    CHECK(same_partition(from_xml, from_text));
    REQUIRE(from_xml.components.size() == 2);
    CHECK(from_xml.components[0].uuid == from_text.components[0].uuid);
    CHECK(from_xml.components[0].footprint == "Buoy:FFC_4");
    CHECK(from_xml.components[1].value == "Pads");
    CHECK(from_xml.nets[2].unconnected);
}

TEST_CASE("a netlist with hostile names comes back from XML") {
    const std::string name =
        GENERATE(as<std::string>{}, "\"", "\\", "(", "a\nb", "a\r\nb", "\t", "</export>",
                 "]]>&amp;", "&lt;", "<!--", "--><x>", "'", "%s{}", " ", "  x  ", "&#7;",
                 "\xE2\x88\x92\xF0\x9F\x98\x80", std::string(60000, 'x'), std::string(9000, '<'));
    CAPTURE(name.substr(0, 40));
    const Netlist netlist = buoy_named(name);
    const Netlist back = read(kicad_xml(netlist));
    CHECK(same_partition(back, netlist));
    CHECK(back.components[0].reference == "J" + name);
    CHECK(back.components[0].value == name);
    CHECK(back.components[1].footprint == name);
    CHECK(back.nets[1].name == "GND" + name);
    CHECK(back.source == name);
}

TEST_CASE("a control character is refused before any XML is written") {
    Netlist netlist = buoy();
    netlist.nets[0].name = "a\x01";
    CHECK(complaint([&] { kicad_xml(netlist); }) ==
          "error: the text of 'name' holds a control character or is not UTF-8, which a netlist "
          "cannot hold [netlist-text]\n");
}

// Written by hand from the documented form of series 4 and 5, with a net that has no name.
TEST_CASE("the XML of series 4 and 5 is read") {
    const Netlist netlist = read(R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- by hand -->
<export version="D">
  <design><source>F:\tide\logger.sch</source><date>2/3/2020</date><tool>Eeschema</tool></design>
  <components>
    <comp ref="P1"><value>CONN_4</value><libsource lib="conn" part="CONN_4"/>
      <sheetpath names="/" tstamps="/"/><tstamp>4C6E2141</tstamp></comp>
    <comp ref="#PWR02"><value>GND</value><tstamp>4C6E2142</tstamp></comp>
  </components>
  <libparts/><libraries/>
  <nets>
    <net code="1" name="GND"><node ref="P1" pin="1"/><node ref="#PWR02" pin="1"/></net>
    <net code="8" name=""><node ref="P1" pin="2"/></net>
  </nets>
</export>
)");
    REQUIRE(netlist.components.size() == 1);
    CHECK(netlist.source == "F:\\tide\\logger.sch");
    CHECK(netlist.components[0].value == "CONN_4");
    CHECK(netlist.components[0].uuid == "4C6E2141");
    REQUIRE(netlist.nets.size() == 2);
    CHECK(netlist.nets[0].nodes == std::vector<Netlist::Node>{{"P1", "1"}});
    CHECK(netlist.nets[1].name == "N-8");
}

TEST_CASE("what is no XML netlist is refused with its place") {
    CHECK(refusal("").find("no 'export' element") != std::string::npos);
    CHECK(refusal("<export>\n<a></b></export>").starts_with("input:2:6: error: this is no XML: "));
    CHECK(refusal("<export/>\n<export/>") ==
          "input:2:2: error: a netlist in XML is one 'export' element; nothing may stand beside it "
          "[netlist-syntax]\n    <export/>\n     ^\n");
    CHECK(refusal("<export/> tail").find("nothing may stand beside it") != std::string::npos);
    CHECK(refusal("<html/>") ==
          "input:1:2: error: this is no netlist: it starts with 'html', not with 'export' "
          "[netlist-root]\n    <html/>\n     ^\n");
    CHECK(refusal("<?xml version=\"1.0\" encoding=\"windows-1252\"?><export/>") ==
          "input:1:3: error: the encoding is 'windows-1252'; save the file as UTF-8 "
          "[netlist-syntax]\n    <?xml version=\"1.0\" encoding=\"windows-1252\"?><export/>\n"
          "      ^\n");
    CHECK(refusal("<export>\xff</export>").find("is not UTF-8") != std::string::npos);
    CHECK(refusal("<export><a>&#1;</a></export>").find("control character") != std::string::npos);
}

TEST_CASE("entities of the file's own are never expanded") {
    const Netlist netlist =
        read(R"(<!DOCTYPE export [<!ENTITY x "boom"><!ENTITY y SYSTEM "/etc/passwd">]>
<export><components><comp ref="A&x;"><value>&y;</value></comp></components><nets/></export>
)");
    CHECK(netlist.components[0].reference == "A&x;");
    CHECK(netlist.components[0].value == "&y;");
}

TEST_CASE("the depth of XML is bounded") {
    std::string deep = "<export>";
    for (int i = 0; i < 100000; ++i) deep += "<a>";
    std::string closed = deep;
    for (int i = 0; i < 100000; ++i) closed += "</a>";
    CHECK(refusal(closed + "</export>").find("more than 64 levels") != std::string::npos);
    CHECK(refusal(deep) != "no complaint");
}

TEST_CASE("every start of an XML netlist is refused, and none crashes the reader") {
    const std::string text = kicad_xml(buoy());
    for (std::size_t size = 0; size + 1 < text.size(); ++size) {
        REQUIRE_THROWS_AS(read(text.substr(0, size)), InputError);
    }
}

TEST_CASE("an XML netlist with any byte changed gives a netlist or a complaint") {
    const std::string text = kicad_xml(buoy());
    const std::string bytes("<>\"&/ \n!\0\xff\xC2", 11);
    for (std::size_t at = 0; at < 3 * text.size(); ++at) {
        std::string changed = text;
        changed[at % text.size()] = bytes[(at + at / text.size()) % bytes.size()];
        CHECK(is_answered([&] { read(changed); }));
    }
}
