// Readings from CSV, as people and spreadsheets write them.
#include "exchange/read_readings.hpp"

#include <catch2/catch.hpp>

#include "bringup/diagnosis.hpp"
#include "design/read.hpp"
#include "document/probe_sheet.hpp"
#include "exchange/csv.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

struct LidLink {
    Library library = shipped_library();
    Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    Wiring wiring = trace(design);

    MeterReadings read(const std::string& text) const {
        return read_readings(text_source(text), design, wiring);
    }
};

std::vector<std::string> rules_told(const LidLink& link, const std::string& text) {
    try {
        link.read(text);
    } catch (const InputError& error) {
        std::vector<std::string> rules;
        for (const Finding& finding : error.findings()) rules.push_back(finding.rule);
        return rules;
    }
    return {};
}

}  // namespace

// Expected: what the text says; the spellings are common practice.
TEST_CASE(
    "readings are understood with commas, semicolons, tabs, a mark in front and any line end") {
    const LidLink link;
    const std::string text = GENERATE(
        "base.plug.1,lid.plug.1,closed\nbase.plug.1,base.plug.2,OL\n",
        "from;to;reading\r\nbase.plug.1;lid.plug.1;0,4\r\nbase.plug.1;base.plug.2;open\r\n",
        "\xEF\xBB\xBF"
        "a\tb\tmeter\nbase.plug.D2+\tlid.plug.1\tbeep\nbase.plug.1\tbase.plug.2\tinf",
        "point,point,result\n\"base.plug.1\", lid.plug.TMDS_D2_P ,X\nbase.plug.1,base.plug.2,2 "
        "Mohm",
        "no,from,to,expect,reading\n1,base.plug.1 D2+,lid.plug.1 D2+,closed,400 mohm\n"
        "2,'base.plug.1,base.plug.2,open,o.l.\n");
    CAPTURE(text);
    const MeterReadings readings = link.read(text);
    REQUIRE(readings.rows.size() == 2);
    CHECK(readings.rows[0].row == 1);
    CHECK(readings.rows[0].closed);
    CHECK(readings.rows[0].from == find_point(link.design, link.wiring, "base.plug.1").point);
    CHECK(readings.rows[0].to == find_point(link.design, link.wiring, "lid.plug.1").point);
    CHECK(readings.rows[1].row == 2);
    CHECK_FALSE(readings.rows[1].closed);
}

// Expected: at most 10 ohm is closed, at least 1000 ohm open (common practice).
TEST_CASE("ohms that are neither closed nor open are left out with a remark") {
    const LidLink link;
    const MeterReadings readings = link.read(
        "base.plug.1,lid.plug.1,10\nbase.plug.2,lid.plug.2,10.1\n"
        "base.plug.3,lid.plug.3,999 ohm\nbase.plug.4,lid.plug.4,1k\n");
    REQUIRE(readings.rows.size() == 2);
    CHECK(readings.rows[0].closed);
    CHECK(readings.rows[1].row == 4);
    CHECK_FALSE(readings.rows[1].closed);
    CHECK(readings.remarks.size() == 2);
}

// Expected: words we chose.
TEST_CASE("what is no reading is refused by its rule") {
    const LidLink link;
    CHECK(rules_told(link, "nothing.here,lid.plug.1,open\n") ==
          std::vector<std::string>{"point-unknown"});
    CHECK(rules_told(link, "base.plug.1,lid.plug.1,-4\n") ==
          std::vector<std::string>{"reading-unknown"});
    CHECK(rules_told(link, "base.plug.1\n") == std::vector<std::string>{"reading-short"});
    CHECK(rules_told(link, "\"base.plug.1,lid.plug.1,open\n").front() == "csv-quote");
    CHECK(rules_told(link, "\xFF\n") == std::vector<std::string>{"csv-encoding"});
    CHECK(rules_told(link, "from,to,reading\n") == std::vector<std::string>{"readings-none"});
}

// Expected: what the text says; bare copper has no volts.
TEST_CASE("volts and any ohms are read where a device was plugged in") {
    const LidLink link;
    const MeterReadings readings = link.read(
        "no,from,to,expect,reading,with\n"
        "7,base.plug.17,base.plug.1,\"0.3 to 0.7 V, diode\",0.55 V,screen\n"
        "8,lid.plug.16,lid.plug.18,,\"1,8k\",logger\n"
        "9,lid.plug.16,lid.plug.18,,470 ohm,logger + screen\n"
        "10,lid.plug.16,lid.plug.18,,540mV,screen\n");
    REQUIRE(readings.rows.size() == 4);
    CHECK(readings.remarks.empty());
    CHECK(readings.rows[0].volts == Volts(0.55));
    REQUIRE(readings.rows[0].with.size() == 1);
    CHECK(link.design.boards[readings.rows[0].with.front()].name == "screen");
    CHECK(readings.rows[1].ohms == Ohms(1800));
    CHECK(readings.rows[2].with.size() == 2);
    CHECK(readings.rows[3].volts == Volts(0.54));
    CHECK(rules_told(link, "base.plug.17,base.plug.1,0.55 V\n") ==
          std::vector<std::string>{"reading-volts"});
    CHECK(rules_told(link, "1,base.plug.17,base.plug.1,,0.55 V,screne\n") ==
          std::vector<std::string>{"device-unknown"});
}

// Expected: a sheet filled in as it expects is that of a sound assembly.
TEST_CASE("the sheet of the plan, filled in as expected, is read back and finds nothing") {
    const LidLink link;
    const Bench bench = set_up(link.design, link.wiring);
    Rows sheet = to_sheet(probe_sheet(bench, probe_plan(bench)));
    const std::size_t rows = sheet.size() - 1;
    CHECK(link.read(write_csv(sheet)).blank == rows);
    std::size_t bare = 0;
    for (std::size_t i = 1; i < sheet.size(); ++i) {
        if (!sheet[i][5].empty()) continue;  // a window of a device, to be measured
        sheet[i][4] = sheet[i][3];
        ++bare;
    }
    const MeterReadings readings = link.read(write_csv(sheet));
    CHECK(readings.rows.size() == bare);
    CHECK(readings.blank == rows - bare);
    CHECK(diagnose(link.design, link.wiring, readings).sound);
}

}  // namespace pinfold
