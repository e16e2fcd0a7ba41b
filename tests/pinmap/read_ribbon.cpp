#include <catch2/catch.hpp>

#include "pinmap/read.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

const std::string flat =
    "pinfold-ribbon: 1\n"
    "name: flat\n"
    "source: invented\n"
    "kind: flat\n"
    "pitch: 0.5 mm\n"
    "conductors: {least: 4, most: 40}\n"
    "width: 0.3 mm\n"
    "thickness: 0.035 mm\n";
const std::string receptacle =
    "pinfold-receptacle: 1\n"
    "name: mouth\n"
    "source: invented\n"
    "takes: flat\n"
    "pitch: 0.5 mm\n"
    "positions: {least: 4, most: 40}\n"
    "side: bottom\n";

RibbonType ribbon(const std::string& text) { return read_ribbon_type("r", text_source(text)); }
std::string refused(const std::string& text) {
    return complaint([&] { ribbon(text); });
}
std::string refused_receptacle(const std::string& text) {
    return complaint([&] { read_receptacle_type("m", text_source(text)); });
}
std::string without(std::string text, const std::string& line) {
    return text.erase(text.find(line), line.size());
}

}  // namespace

// Inputs: invented. Expected values: width times thickness; texts: words we chose.
TEST_CASE("the metal of a flat conductor is its width times its thickness") {
    CHECK(ribbon(flat).section.value() == Approx(0.0105));
    CHECK(ribbon(flat).kind == RibbonKind::flat);
    CHECK(ribbon(flat).stock_lengths.empty());
}

TEST_CASE("the metal of a round conductor is that of its strands") {
    const RibbonType round = ribbon(
        "pinfold-ribbon: 1\nname: r\nsource: invented\nkind: round\npitch: 1.27 mm\n"
        "conductors: {least: 6, most: 64}\nwire-area: 0.0887 mm2\n");
    CHECK(round.section == SquareMillimetres(0.0887));
    CHECK(refused("pinfold-ribbon: 1\nname: r\nsource: invented\nkind: round\npitch: 1.27 mm\n"
                  "conductors: {least: 6, most: 64}\nwidth: 0.3 mm\n")
              .find("'wire-area' is missing") != std::string::npos);
}

TEST_CASE("a ribbon type misses no field it needs") {
    CHECK(refused(without(flat, "width: 0.3 mm\n")) ==
          "input:1:1: error: 'width' is missing [yaml-field-missing]\n"
          "    pinfold-ribbon: 1\n"
          "    ^\n");
    for (const char* line : {"source: invented\n", "kind: flat\n", "pitch: 0.5 mm\n",
                             "conductors: {least: 4, most: 40}\n", "thickness: 0.035 mm\n"}) {
        CAPTURE(line);
        CHECK(refused(without(flat, line)).find("is missing [yaml-field-missing]") !=
              std::string::npos);
    }
}

TEST_CASE("a range is not upside down") {
    CHECK(refused(without(flat, "conductors: {least: 4, most: 40}\n") +
                  "conductors: {least: 40, most: 4}\n") ==
          "input:8:13: error: 'conductors': least is above most [yaml-number]\n"
          "    conductors: {least: 40, most: 4}\n"
          "                ^\n");
    CHECK(refused_receptacle(receptacle + "end-thickness: {least: 0.35 mm, most: 0.25 mm}\n") ==
          "input:8:16: error: 'end-thickness': least is above most [yaml-number]\n"
          "    end-thickness: {least: 0.35 mm, most: 0.25 mm}\n"
          "                   ^\n");
    CHECK(refused(without(flat, "conductors: {least: 4, most: 40}\n") + "conductors: 20\n") ==
          "input:8:13: error: expected a map of named fields [yaml-shape]\n"
          "    conductors: 20\n"
          "                ^\n");
}

TEST_CASE("stock lengths are lengths") {
    CHECK(ribbon(flat + "stock-lengths: [30 mm, 0.1 m]\n").stock_lengths[1] == 100.0_mm);
    CHECK(refused(flat + "stock-lengths: [30 mm, 4 in]\n") ==
          "input:9:24: error: a stock length must be a length such as '0.5 mm', not '4 in': that "
          "is 101.6 mm [yaml-unit]\n"
          "    stock-lengths: [30 mm, 4 in]\n"
          "                           ^\n");
}

TEST_CASE("an unknown kind and an unknown side are refused") {
    CHECK(refused(without(flat, "kind: flat\n") + "kind: flatt\n").find("did you mean 'flat'?") !=
          std::string::npos);
    CHECK(refused_receptacle(without(receptacle, "side: bottom\n") + "side: under\n") ==
          "input:7:7: error: 'side' must be one of: top, bottom, both; not 'under' [yaml-word]\n"
          "    side: under\n"
          "          ^\n");
    CHECK(refused_receptacle(without(receptacle, "side: bottom\n")).find("'side' is missing") !=
          std::string::npos);
    CHECK(refused_receptacle(receptacle + "entry: sideways\n")
              .find("'entry' must be one of: right-angle, vertical; not 'sideways'") !=
          std::string::npos);
}

TEST_CASE("a receptacle for round wires has no contact side") {
    const std::string round =
        "pinfold-receptacle: 1\nname: m\nsource: invented\ntakes: round\n"
        "pitch: 1.27 mm\npositions: {least: 6, most: 64}\nrows: 2\n";
    CHECK(read_receptacle_type("m", text_source(round)).rows == 2);
    CHECK(refused_receptacle(round + "side: top\n").find("unknown field 'side'") !=
          std::string::npos);
}

TEST_CASE("a receptacle's numbers are quantities") {
    const ReceptacleType type = read_receptacle_type(
        "m", text_source(receptacle + "current: 0.5 A\nall-loaded: 70 %\n"
                                      "contact-resistance: 50 mohm\nmating-cycles: 20\n"));
    CHECK(type.current == 0.5_A);
    CHECK(type.all_loaded == Percent(70.0));
    CHECK(type.contact_resistance->value() == Approx(0.05));
    CHECK(type.mating_cycles == 20);
    CHECK(
        refused_receptacle(receptacle + "mating-cycles: 0\n").find("from 1 to 1000000, not '0'") !=
        std::string::npos);
}

}  // namespace pinfold
