// One invented adapter as each series of the layout suite writes it, by hand from the documented
// grammar: the manual's chapter on the intermediate netlist and its examples, the notes on
// S-expressions, and what public readers' change logs say each series added.
#include <catch2/catch.hpp>

#include <algorithm>

#include "exchange/read_netlist.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

/// J1 is a four-way receptacle with a shield pad, J2 three pads; contact 3 of J1 hangs loose.
Netlist adapter() {
    Netlist netlist;
    netlist.nets = {{"a", false, {{"J1", "1"}, {"J1", "SH"}, {"J2", "2"}}, {}},
                    {"b", false, {{"J1", "2"}, {"J2", "1"}}, {}},
                    {"c", false, {{"J1", "3"}}, {}},
                    {"d", false, {{"J1", "4"}, {"J2", "3"}}, {}}};
    return netlist;
}

struct Generation {
    std::string series;
    std::string uuid;  ///< of J1
    std::string text;
};

// Bare atoms, `(tstamp HEX8)`, closing parentheses gathered, a symbol without a part; no function
// and no type at the nodes. A loose pin is a net of one node, or no net at all.
const Generation series_4{"4", "5AF1C0D1", R"x((export (version D)
  (design
    (source /home/tide/adapter.sch)
    (date "Вт 08 мая 2018 18:02:11")
    (tool "Eeschema 4.0.6")
    (sheet (number 1) (name /) (tstamps /)
      (title_block
        (title "Tide adapter")
        (company)
        (rev A)
        (date)
        (source adapter.sch)
        (comment (number 1) (value ""))
        (comment (number 2) (value ""))
        (comment (number 3) (value ""))
        (comment (number 4) (value "")))))
  (components
    (comp (ref J1)
      (value CONN_4)
      (footprint Tide:FFC_4)
      (fields
        (field (name Port) tail))
      (libsource (lib conn) (part CONN_4))
      (sheetpath (names /) (tstamps /))
      (tstamp 5AF1C0D1))
    (comp (ref J2)
      (value PADS_3)
      (libsource (lib conn) (part CONN_3))
      (sheetpath (names /) (tstamps /))
      (tstamp 5AF1C0D2))
    (comp (ref #PWR01)
      (value GND)
      (libsource (lib power) (part GND))
      (sheetpath (names /) (tstamps /))
      (tstamp 5AF1C0D3)))
  (libparts
    (libpart (lib conn) (part CONN_4)
      (description "4 contacts")
      (footprints
        (fp FFC*))
      (fields
        (field (name Reference) J))
      (pins
        (pin (num 1) (name P1) (type passive))
        (pin (num 2) (name P2) (type passive)))))
  (libraries
    (library (logical conn)
      (uri /usr/share/library/conn.lib)))
  (nets
    (net (code 1) (name GND)
      (node (ref J1) (pin 1))
      (node (ref J1) (pin SH))
      (node (ref J2) (pin 2))
      (node (ref #PWR01) (pin 1)))
    (net (code 2) (name /DATA+)
      (node (ref J2) (pin 1))
      (node (ref J1) (pin 2)))
    (net (code 3) (name "Net-(J1-Pad3)")
      (node (ref J1) (pin 3)))
    (net (code 4) (name +3.3V)
      (node (ref J1) (pin 4))
      (node (ref J2) (pin 3)))))
)x"};

// As before, with a description beside the library's part.
const Generation series_5{"5", "5C7E0A51", R"x((export (version D)
  (design
    (source F:\tide\adapter.sch)
    (date "2/3/2020 12:05:01")
    (tool "Eeschema (5.1.4)-1")
    (sheet (number 1) (name /) (tstamps /)
      (title_block
        (title)
        (company)
        (rev)
        (date)
        (source adapter.sch)
        (comment (number 1) (value "")))))
  (components
    (comp (ref J2)
      (value "Pads (3)")
      (footprint Tide:PADS_3)
      (datasheet ~)
      (libsource (lib Connector) (part Conn_01x03) (description "Row, single, 01x03"))
      (sheetpath (names /) (tstamps /))
      (tstamp 5C7E0A52))
    (comp (ref J1)
      (value FFC)
      (footprint Tide:FFC_4)
      (datasheet ~)
      (libsource (lib Connector) (part Conn_01x04) (description "Row, single, 01x04"))
      (sheetpath (names /) (tstamps /))
      (tstamp 5C7E0A51)))
  (libparts)
  (libraries)
  (nets
    (net (code 4) (name /D)
      (node (ref J2) (pin 3))
      (node (ref J1) (pin 4)))
    (net (code 1) (name "Net-(J1-Pad2)")
      (node (ref J1) (pin 2))
      (node (ref J2) (pin 1)))
    (net (code 7) (name GND)
      (node (ref J1) (pin SH))
      (node (ref J1) (pin 1))
      (node (ref J2) (pin 2)))
    (net (code 2) (name "Net-(J1-Pad3)")
      (node (ref J1) (pin 3)))))
)x"};

/// All quoted, one UUID for each unit, user fields again as properties, function and type at every
/// node, nine comments; `extra` goes into the component, `inside` into its fields, `class_text`
/// behind each net's name.
std::string quoted(const std::string& tool, const std::string& date, const std::string& inside,
                   const std::string& extra, const std::string& class_text) {
    return R"x((export (version "E")
  (design
    (source "/home/tide/adapter.kicad_sch")
    (date ")x" +
           date + R"x(")
    (tool ")x" +
           tool + R"x(")
    (sheet (number "1") (name "/") (tstamps "/")
      (title_block
        (title "Tide adapter")
        (company)
        (rev)
        (date)
        (source "adapter.kicad_sch")
        (comment (number "1") (value ""))
        (comment (number "9") (value "")))))
  (components
    (comp (ref "J1")
      (value "FFC")
      (footprint "Tide:FFC_4")
      (datasheet "~"))x" +
           extra + R"x(
      (fields)x" +
           inside + R"x(
        (field (name "Port") "tail"))
      (libsource (lib "Connector") (part "Conn_01x04") (description "Row, single"))
      (property (name "Port") (value "tail"))
      (property (name "Sheetname") (value ""))
      (property (name "Sheetfile") (value "adapter.kicad_sch"))
      (sheetpath (names "/") (tstamps "/"))
      (tstamps "0f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee" "1f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee"))
    (comp (ref "J2")
      (value "Pads")
      (sheetpath (names "/") (tstamps "/"))
      (tstamps "2f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee")))
  (libparts
    (libpart (lib "Connector") (part "Conn_01x04")
      (docs "~")
      (pins
        (pin (num "1") (name "Pin_1") (type "passive")))))
  (libraries)
  (nets
    (net (code "1") (name "/D+{slash}D-"))x" +
           class_text + R"x(
      (node (ref "J1") (pin "2") (pinfunction "D+/D-") (pintype "passive"))
      (node (ref "J2") (pin "1") (pinfunction "Pin_1") (pintype "passive")))
    (net (code "2") (name "GND"))x" +
           class_text + R"x(
      (node (ref "J1") (pin "1") (pinfunction "GND") (pintype "passive"))
      (node (ref "J1") (pin "SH") (pinfunction "SHIELD") (pintype "passive"))
      (node (ref "J2") (pin "2") (pinfunction "Pin_2") (pintype "power_in")))
    (net (code "3") (name "Net-(J1-Pin_4)"))x" +
           class_text + R"x(
      (node (ref "J1") (pin "4") (pinfunction "Pin_4") (pintype "passive"))
      (node (ref "J2") (pin "3") (pinfunction "Pin_3") (pintype "passive")))
    (net (code "4") (name "unconnected-(J1-Pin_3-Pad3)"))x" +
           class_text + R"x(
      (node (ref "J1") (pin "3") (pinfunction "Pin_3") (pintype "passive+no_connect")))))
)x";
}

constexpr const char* first_unit = "0f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee";

const Generation series_6{"6", first_unit,
                          quoted("Eeschema 6.0.11", "Mi 08 Mär 2023 19:00:00 CET", "", "", "")};
const Generation series_7{"7", first_unit,
                          quoted("Eeschema 7.0.10", "2024-02-01 10:11:12", "",
                                 "\n      (property (name \"ki_keywords\") (value \"row\"))", "")};
// A description of its own, and Footprint, Datasheet, Description again among the fields.
const Generation series_8{"8", first_unit,
                          quoted("Eeschema 8.0.4", "2024-09-01T10:11:12",
                                 R"x(
        (field (name "Footprint") "Tide:FFC_4")
        (field (name "Datasheet") "~")
        (field (name "Description")))x",
                                 "\n      (description \"Row, single, 01x04\")", "")};
// Classes of nets.
const Generation series_9{"9", first_unit,
                          quoted("Eeschema 9.0.1", "2025-03-01T10:11:12+0100",
                                 "\n        (field (name \"Footprint\") \"Tide:FFC_4\")",
                                 "\n      (description \"Row\")", " (class \"Default\")")};

// Tabs, one item a line, closing parentheses alone; groups, variants, units, text variables, and
// functions with their pin behind them.
const Generation series_10{"10", first_unit, R"x((export
	(version "E")
	(design
		(source "/home/tide/adapter.kicad_sch")
		(date "2026-02-03T04:05:06")
		(tool "Eeschema 10.0.5")
		(textvar
			(name "REV")
			"B"
		)
		(sheet
			(number "1")
			(name "/")
			(tstamps "/")
			(title_block
				(title)
				(comment
					(number "9")
					(value "")
				)
			)
		)
	)
	(components
		(comp
			(ref "J1")
			(value "FFC")
			(footprint "Tide:FFC_4")
			(fields
				(field
					(name "Port")
					"tail"
				)
			)
			(libsource
				(lib "Connector")
				(part "Conn_01x04")
				(description "")
			)
			(property
				(name "exclude_from_bom")
			)
			(sheetpath
				(names "/")
				(tstamps "/")
			)
			(tstamps "0f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee")
			(units
				(unit
					(name "A")
					(pins
						(pin
							(num "1")
						)
						(pin
							(num "2")
						)
					)
				)
			)
			(jumper_pin_groups)
		)
		(comp
			(ref "J2")
			(value "Pads")
			(sheetpath
				(names "/")
				(tstamps "/")
			)
			(tstamps "2f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee")
		)
	)
	(groups)
	(variants)
	(libparts)
	(libraries)
	(nets
		(net
			(code "1")
			(name "/SIGNAL")
			(class "Default")
			(node
				(ref "J1")
				(pin "2")
				(pinfunction "Pin_2_2")
				(pintype "passive")
			)
			(node
				(ref "J2")
				(pin "1")
				(pintype "passive")
			)
		)
		(net
			(code "2")
			(name "GND")
			(class "Default")
			(node
				(ref "J1")
				(pin "1")
				(pinfunction "GND_1")
				(pintype "passive")
			)
			(node
				(ref "J1")
				(pin "SH")
				(pinfunction "SHIELD_SH")
				(pintype "passive")
			)
			(node
				(ref "J2")
				(pin "2")
				(pintype "passive")
			)
		)
		(net
			(code "3")
			(name "Net-(J1-Pad4)")
			(class "Default")
			(node
				(ref "J1")
				(pin "4")
				(pintype "passive")
			)
			(node
				(ref "J2")
				(pin "3")
				(pintype "passive")
			)
		)
		(net
			(code "4")
			(name "unconnected-(J1-Pad3)")
			(class "Default")
			(node
				(ref "J1")
				(pin "3")
				(pintype "passive+no_connect")
			)
		)
	)
)
)x"};

const Generation xml_of_4_and_5{"4 and 5, XML", "5AF1C0D1",
                                R"x(<?xml version="1.0" encoding="utf-8"?>
<export version="D">
  <design>
    <source>/home/tide/adapter.sch</source>
    <date>8.5.2018 18:02:11</date>
    <tool>Eeschema 4.0.6</tool>
    <sheet number="1" name="/" tstamps="/">
      <title_block><title/><company/><rev/><date/><source>adapter.sch</source>
        <comment number="1" value=""/></title_block>
    </sheet>
  </design>
  <components>
    <comp ref="J1"><value>CONN_4</value><footprint>Tide:FFC_4</footprint>
      <fields><field name="Port">tail</field></fields>
      <libsource lib="conn" part="CONN_4"/><sheetpath names="/" tstamps="/"/>
      <tstamp>5AF1C0D1</tstamp></comp>
    <comp ref="J2"><value>PADS_3</value><libsource lib="conn" part="CONN_3"/>
      <sheetpath names="/" tstamps="/"/><tstamp>5AF1C0D2</tstamp></comp>
  </components>
  <libparts/>
  <libraries/>
  <nets>
    <net code="1" name="GND"><node ref="J1" pin="1"/><node ref="J1" pin="SH"/>
      <node ref="J2" pin="2"/></net>
    <net code="2" name=""><node ref="J1" pin="2"/><node ref="J2" pin="1"/></net>
    <net code="3" name="Net-(J1-Pad3)"><node ref="J1" pin="3"/></net>
    <net code="4" name="+3.3V"><node ref="J1" pin="4"/><node ref="J2" pin="3"/></net>
  </nets>
</export>
)x"};

const Generation xml_of_6_to_10{"6 to 10, XML", first_unit,
                                R"x(<?xml version="1.0" encoding="utf-8"?>
<export version="E">
  <design>
    <source>/home/tide/adapter.kicad_sch</source><date>2025-03-01T10:11:12+0100</date>
    <tool>Eeschema 9.0.1</tool><textvar name="REV">B</textvar>
  </design>
  <components>
    <comp ref="J1"><value>FFC</value><footprint>Tide:FFC_4</footprint><datasheet>~</datasheet>
      <description>Row</description>
      <fields><field name="Footprint">Tide:FFC_4</field><field name="Port">tail</field></fields>
      <libsource lib="Connector" part="Conn_01x04" description="Row, single"/>
      <property name="Sheetname" value=""/><property name="exclude_from_bom"/>
      <sheetpath names="/" tstamps="/"/>
      <tstamps>0f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee</tstamps>
      <units><unit name="A"><pins><pin num="1"/></pins></unit></units></comp>
    <comp ref="J2"><value>Pads</value><sheetpath names="/" tstamps="/"/>
      <tstamps>2f6d4a5e-11d7-4c35-9df5-0d0a11c0ffee</tstamps></comp>
  </components>
  <groups/><variants/><libparts/><libraries/>
  <nets>
    <net code="1" name="GND" class="Default">
      <node ref="J1" pin="1" pinfunction="GND_1" pintype="passive"/>
      <node ref="J1" pin="SH" pinfunction="SHIELD_SH" pintype="passive"/>
      <node ref="J2" pin="2" pintype="passive"/></net>
    <net code="2" name="/D+{slash}D-" class="Default">
      <node ref="J1" pin="2" pinfunction="D+/D-" pintype="passive"/>
      <node ref="J2" pin="1" pintype="passive"/></net>
    <net code="3" name="Net-(J1-Pad4)" class="Default">
      <node ref="J1" pin="4" pintype="passive"/><node ref="J2" pin="3" pintype="passive"/></net>
    <net code="4" name="unconnected-(J1-Pad3)" class="Default">
      <node ref="J1" pin="3" pintype="passive+no_connect"/></net>
  </nets>
</export>
)x"};

}  // namespace

TEST_CASE("the netlist of every series from 4 to 10 joins the same pads") {
    const Generation written =
        GENERATE(values<Generation>({series_4, series_5, series_6, series_7, series_8, series_9,
                                     series_10, xml_of_4_and_5, xml_of_6_to_10}));
    CAPTURE(written.series);
    const Netlist netlist = read_netlist(text_source(written.text)).netlist;
    CHECK(same_partition(netlist, adapter()));
    CHECK(netlist.remarks.empty());
    REQUIRE(netlist.components.size() == 2);
    const auto j1 = std::ranges::find(netlist.components, "J1", &Netlist::Component::reference);
    REQUIRE(j1 != netlist.components.end());
    CHECK(j1->footprint == "Tide:FFC_4");
    CHECK(j1->uuid == written.uuid);
    CHECK(j1->port == (written.series == "5" ? "" : "tail"));
    CHECK(j1->fitted);
    CHECK(j1->pads.size() == 5);
}
