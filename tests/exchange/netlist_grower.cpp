#include "exchange/kicad_text.hpp"

#include <catch2/catch.hpp>

#include "exchange/buoy.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Netlist read(const std::string& text) { return read_kicad_text(text_source(text)); }

std::string refusal(const std::string& text) {
    return complaint([&] { read(text); });
}

}  // namespace

// Written by hand from the documented grammar: series 4 and 5 write bare atoms, `(tstamp HEX8)`,
// and quote only what parentheses would break.
TEST_CASE("a netlist of series 4 and 5 is read") {
    const Netlist netlist = read(R"x((export (version D)
  (design
    (source /home/tide/logger.sch)
    (date "Пн 02 мар 2020")
    (tool "Eeschema 5.1.4")
    (sheet (number 1) (name /) (tstamps /)
      (title_block (title) (company) (rev) (date) (source logger.sch)
        (comment (number 1) (value "")))))
  (components
    (comp (ref R1)
      (value 100n)
      (footprint Tide:R_0603)
      (datasheet ~)
      (fields (field (name Maker) "Nobody, at all") (field (name Empty)))
      (libsource (lib device) (part R) (description ""))
      (sheetpath (names /) (tstamps /))
      (tstamp 5E5D0A11))
    (comp (ref J03) (value Conn) (tstamp 5E5D0A12))
    (comp (ref #PWR01) (value GND) (tstamp 5E5D0A13)))
  (libparts)
  (libraries)
  (nets
    (net (code 1) (name +3.3V)
      (node (ref R1) (pin 1)) (node (ref J03) (pin 01)))
    (net (code 2) (name /SIG_OUT)
      (node (ref J03) (pin A'B)))
    (net (code 3) (name "Net-(R1-Pad2)")
      (node (ref #PWR01) (pin 1)) (node (ref R1) (pin 2)))
    (net (code 4) (name ""))))
)x");
    REQUIRE(netlist.components.size() == 2);
    CHECK(netlist.source == "/home/tide/logger.sch");
    CHECK(netlist.components[0].reference == "R1");
    CHECK(netlist.components[0].value == "100n");
    CHECK(netlist.components[0].footprint == "Tide:R_0603");
    CHECK(netlist.components[0].uuid == "5E5D0A11");
    CHECK(netlist.components[1].reference == "J03");
    CHECK(netlist.components[1].footprint.empty());
    REQUIRE(netlist.nets.size() == 4);
    CHECK(netlist.nets[0].name == "+3.3V");
    CHECK(netlist.nets[0].nodes[1] == Netlist::Node{"J03", "01"});
    CHECK(netlist.nets[1].name == "/SIG_OUT");
    CHECK(netlist.nets[1].nodes[0] == Netlist::Node{"J03", "A'B"});
    CHECK(netlist.nets[2].nodes == std::vector<Netlist::Node>{{"R1", "2"}});
    CHECK(netlist.nets[3].name == "N-4");
    CHECK(netlist.nets[3].nodes.empty());
}

// Written by hand from the documented grammar: series 10 quotes everything, indents with tabs, and
// adds classes, groups, variants and units.
TEST_CASE("a netlist of series 6 to 10 is read") {
    const Netlist netlist = read(
        "\xEF\xBB\xBF"
        R"x(# made by hand
(export
	(version "E")
	(design
		(source "tide.kicad_sch")
		(date "2026-01-02T03:04:05")
		(tool "Eeschema 10.0.5")
		(textvar
			(name "REV")
			"B"
		)
	)
	(components
		(comp
			(ref "U1")
			(value "say \"hi\" \\ caf\xC3\xA9 \x41\101")
			(footprint "Tide:QFN")
			(fields
				(field
					(name "Footprint")
					"Tide:QFN"
				)
			)
			(property
				(name "dnp")
			)
			(sheetpath
				(names "/")
				(tstamps "/")
			)
			(tstamps "11111111-2222-5333-8444-555555555555" "66666666-7777-5888-8999-000000000000")
			(units
				(unit
					(name "A")
					(pins
						(pin
							(num "1")
						)
					)
				)
			)
		)
	)
	(groups)
	(variants)
	(nets
		(net
			(code "1")
			(name "/Sheet{slash}1/~{INT}")
			(class "Default")
			(node
				(ref "U1")
				(pin "1")
				(pinfunction "GND_1")
				(pintype "power_in")
			)
		)
	)
)
)x");
    REQUIRE(netlist.components.size() == 1);
    CHECK(netlist.components[0].value == "say \"hi\" \\ caf\xC3\xA9 AA");
    CHECK(netlist.components[0].uuid == "11111111-2222-5333-8444-555555555555");
    CHECK(netlist.nets[0].name == "/Sheet/1/~{INT}");
    CHECK(netlist.components[0].pads[0].function == "GND_1");
}

TEST_CASE("carriage returns and missing line ends change nothing") {
    std::string text = kicad_text(buoy());
    std::string windows;
    for (const char c : text) windows += c == '\n' ? "\r\n" : std::string(1, c);
    CHECK(same_partition(read(windows), buoy()));
    text.pop_back();
    CHECK(same_partition(read(text), buoy()));
}

TEST_CASE("a line that starts with # is a comment, also after blanks; any other # is text") {
    const Netlist netlist = read(
        "# one\n(export (components (comp (ref A)))\n  # (two\n"
        "(nets (net (name X) (node (ref A) (pin #1)))))\n#three");
    CHECK(netlist.nets[0].nodes[0].pad == "#1");
}

TEST_CASE("a net given twice is one net, and said so") {
    const Netlist netlist = read(R"((export (components (comp (ref A)) (comp (ref B)))
(nets (net (code 1) (name X) (node (ref A) (pin 1)))
(net (code 2) (name X) (node (ref B) (pin 1)))))
)");
    REQUIRE(netlist.nets.size() == 1);
    CHECK(netlist.nets[0].nodes.size() == 2);
    REQUIRE(netlist.remarks.size() == 1);
    CHECK(to_text(netlist.remarks[0]) ==
          R"(input:3:1: warning: net 'X' is given twice; taken as one [net-twice]
    (net (code 2) (name X) (node (ref B) (pin 1)))))
    ^
input:2:7: note: first here
    (nets (net (code 1) (name X) (node (ref A) (pin 1)))
          ^
)");
}

TEST_CASE("nets whose names differ only in how a slash is meant stay two") {
    const Netlist netlist = read(
        "(export (components (comp (ref A))) (nets (net (name a/b)"
        "(node (ref A) (pin 1))) (net (name a{slash}b)"
        "(node (ref A) (pin 2)))))");
    CHECK(netlist.nets.size() == 2);
}

TEST_CASE("a node without its component stays, and is remarked on once") {
    const Netlist netlist = read(
        "(export (components) (nets (net (name X)"
        "(node (ref A) (pin 1)) (node (ref A) (pin 2)))))");
    CHECK(netlist.nets[0].nodes.size() == 2);
    CHECK(rules_of(netlist.remarks) == std::vector<std::string>{"netlist-stranger"});
}

TEST_CASE("faults of meaning are all told, each with its place") {
    CHECK(refusal(R"((export (components
(comp (ref A)) (comp (ref A)) (comp (value 1)))
(nets (net (name X) (node (ref A) (pin 1)) (node (ref A)))
(net (name Y) (node (ref A) (pin 1))) (net)))
)") == R"(input:2:16: error: reference 'A' is given twice [reference-twice]
    (comp (ref A)) (comp (ref A)) (comp (value 1)))
                   ^
input:2:1: note: first here
    (comp (ref A)) (comp (ref A)) (comp (value 1)))
    ^
input:2:31: error: a component without a reference [netlist-reference]
    (comp (ref A)) (comp (ref A)) (comp (value 1)))
                                  ^
input:3:44: error: a node needs a reference and a pin [netlist-node]
    (nets (net (name X) (node (ref A) (pin 1)) (node (ref A)))
                                               ^
input:4:15: error: pad 1 of A is on two nets, 'X' and 'Y' [netlist-short]
    (net (name Y) (node (ref A) (pin 1))) (net)))
                  ^
input:3:21: note: first here
    (nets (net (name X) (node (ref A) (pin 1)) (node (ref A)))
                        ^
input:4:39: error: a net without a name [netlist-net]
    (net (name Y) (node (ref A) (pin 1))) (net)))
                                          ^
)");
}

TEST_CASE("faults of form are told where they stand") {
    CHECK(refusal("") ==
          "input:1:1: error: this file is empty; a netlist starts with '(export' "
          "[netlist-syntax]\n");
    CHECK(
        refusal("export") ==
        "input:1:1: error: a netlist starts with '(export' [netlist-syntax]\n    export\n    ^\n");
    CHECK(refusal("(kicad_pcb)") ==
          "input:1:1: error: this is no netlist: it starts with 'kicad_pcb', not with 'export' "
          "[netlist-root]\n    (kicad_pcb)\n    ^\n");
    CHECK(refusal("(export (nets))") ==
          "input:1:1: error: this netlist has no list of components [netlist-section]\n"
          "    (export (nets))\n    ^\n");
    CHECK(refusal("(export\n (components) (nets)") ==
          "input:2:21: error: the file ends inside 1 open parenthesis [netlist-syntax]\n"
          "     (components) (nets)\n                        ^\n"
          "input:1:1: note: the innermost opens here\n    (export\n    ^\n");
    CHECK(refusal("(export (components) (nets)) x") ==
          "input:1:30: error: the netlist has ended; nothing may follow its last ')' "
          "[netlist-syntax]\n    (export (components) (nets)) x\n                                 "
          "^\n");
    CHECK(refusal("(export \xC3\xA9 \"abc\n\")") ==
          "input:1:11: error: this quote does not close on its line [netlist-syntax]\n"
          "    (export \xC3\xA9 \"abc\n              ^\n");
    CHECK(refusal("(export \"\\xg\")") ==
          "input:1:10: error: '\\x' needs one or two hexadecimal digits [netlist-syntax]\n"
          "    (export \"\\xg\")\n             ^\n");
    CHECK(refusal("(export \"\\400\")") ==
          "input:1:10: error: an octal escape goes up to \\377 [netlist-syntax]\n"
          "    (export \"\\400\")\n             ^\n");
    CHECK(refusal("(export \"\\x07\")") ==
          "input:1:9: error: this text holds a control character or is not UTF-8, which a netlist "
          "cannot hold [netlist-text]\n    (export \"\\x07\")\n            ^\n");
    CHECK(refusal("(export \x01)") ==
          "input:1:9: error: a control character stands here; remove it [text-control]\n"
          "    (export ?)\n            ^\n");
}

TEST_CASE("size and depth are bounded") {
    CHECK(refusal(std::string(65, '(')).find("more than 64 levels") != std::string::npos);
    CHECK(refusal(std::string(1'000'000, '(')).find("more than 64 levels") != std::string::npos);
    CHECK(refusal("(export " + std::string(65537, 'x') + ")").find("64 KiB") != std::string::npos);
    std::string many = "(export";
    for (int i = 0; i < 16'000'001; ++i) many += "()";
    CHECK(refusal(many).find("more than 16000000 parts") != std::string::npos);
}

TEST_CASE("every start of a netlist is refused, and none crashes the reader") {
    const std::string text = kicad_text(buoy());
    for (std::size_t size = 0; size + 1 < text.size(); ++size) {
        REQUIRE_THROWS_AS(read(text.substr(0, size)), InputError);
    }
}

TEST_CASE("a netlist with any byte changed gives a netlist or a complaint") {
    const std::string text = kicad_text(buoy());
    const std::string bytes("()\"\\ \n#x\0\xff\xC2", 11);
    for (std::size_t at = 0; at < 3 * text.size(); ++at) {
        std::string changed = text;
        changed[at % text.size()] = bytes[(at + at / text.size()) % bytes.size()];
        CHECK(is_answered([&] { read(changed); }));
    }
}
