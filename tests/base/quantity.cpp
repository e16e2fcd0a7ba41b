#include "base/quantity.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

std::string millimetres_or_why(std::string_view text) {
    const Reading reading = parse_quantity(text, dimension_of<Millimetres>());
    return reading.value ? std::to_string(*reading.value) : reading.complaint;
}

std::string refusal(const std::string& text) {
    return "must be a length such as '0.5 mm', not '" + text + "'";
}

}  // namespace

// Factors: SI prefixes.
TEST_CASE("a quantity is worth its number times its unit") {
    CHECK(read_quantity<Millimetres>("0.5 mm") == 0.5_mm);
    CHECK(read_quantity<Millimetres>("0.5mm") == 0.5_mm);
    CHECK(read_quantity<Millimetres>("12  cm") == 120.0_mm);
    CHECK(read_quantity<Millimetres>("0.12 m") == 120.0_mm);
    CHECK(read_quantity<Millimetres>("35 um")->value() == Approx(0.035));
    CHECK(read_quantity<Millimetres>("1e2 mm") == 100.0_mm);
    CHECK(read_quantity<SquareMillimetres>("0.09 mm2") == SquareMillimetres(0.09));
    CHECK(read_quantity<Ohms>("50 mohm")->value() == Approx(0.05));
    CHECK(read_quantity<Ohms>("1 kohm") == 1000.0_ohm);
    CHECK(read_quantity<Volts>("4800 mV")->value() == Approx(4.8));
    CHECK(read_quantity<Amperes>("55 mA")->value() == Approx(0.055));
    CHECK(read_quantity<Picoseconds>("2.42 ns")->value() == Approx(2420.0));
    CHECK(read_quantity<GigabitsPerSecond>("480 Mbit/s")->value() == Approx(0.48));
    CHECK(read_quantity<Percent>("15 %") == Percent(15.0));
    CHECK(read_quantity<UnitIntervals>("0.15 UI") == UnitIntervals(0.15));
}

// 1 in = 25.4 mm, 1 ft = 304.8 mm exactly: international yard and pound agreement, 1959.
TEST_CASE("a foreign length is refused and told in millimetres") {
    CHECK(millimetres_or_why("0.5 in") == refusal("0.5 in") + ": that is 12.7 mm");
    CHECK(millimetres_or_why("2\"") == refusal("2\"") + ": that is 50.8 mm");
    CHECK(millimetres_or_why("20 mil") == refusal("20 mil") + ": that is 0.508 mm");
    CHECK(millimetres_or_why("1 ft") == refusal("1 ft") + ": that is 304.8 mm");
}

TEST_CASE("a number without a unit is told that the unit is missing") {
    CHECK(millimetres_or_why("120") == refusal("120") + ": the unit is missing");
    CHECK(millimetres_or_why("-1e3") == refusal("-1e3") + ": the unit is missing");
}

TEST_CASE("nothing and less than nothing are no quantities") {
    CHECK(millimetres_or_why("0 mm") == "must be more than nothing, not '0 mm'");
    CHECK(millimetres_or_why("-0.5 mm") == "must be more than nothing, not '-0.5 mm'");
    CHECK(millimetres_or_why("-0 mm") == "must be more than nothing, not '-0 mm'");
    CHECK(millimetres_or_why("-0.5 in") == refusal("-0.5 in"));
}

TEST_CASE("what is no finite number with a known unit is refused") {
    const std::string text =
        GENERATE(as<std::string>{}, "", " ", "mm", "x mm", "1e999 mm", "nan mm", "inf mm",
                 "-inf mm", "0x10 mm", "1,5 mm", "+5 mm", "1e mm", "1..5 mm", "1_000 mm", "5 MM",
                 "5 mm long", "5 mm2", "5 ohm", "5 mm ", "\xC2\xA0 5 mm", "5 \xC2\xB5m", "1e308 m",
                 "1e308 in", "e", ".", "-", "1-2");
    CAPTURE(text);
    CHECK(millimetres_or_why(text) == refusal(text));
}

TEST_CASE("a quantity too small for a number is nothing") {
    CHECK(millimetres_or_why("4e-324 um") == "must be more than nothing, not '4e-324 um'");
}

TEST_CASE("each kind of quantity says how it wants to be written") {
    const auto why = [](const Dimension& d) { return parse_quantity("?", d).complaint; };
    CHECK(why(dimension_of<SquareMillimetres>()) == "must be an area such as '0.09 mm2', not '?'");
    CHECK(why(dimension_of<Ohms>()) == "must be a resistance such as '50 mohm', not '?'");
    CHECK(why(dimension_of<Volts>()) == "must be a voltage such as '4.8 V', not '?'");
    CHECK(why(dimension_of<Amperes>()) == "must be a current such as '55 mA', not '?'");
    CHECK(why(dimension_of<Picoseconds>()) == "must be a time such as '150 ps', not '?'");
    CHECK(why(dimension_of<GigabitsPerSecond>()) ==
          "must be a rate such as '1.65 Gbit/s', not '?'");
    CHECK(why(dimension_of<Percent>()) == "must be a share such as '15 %', not '?'");
    CHECK(why(dimension_of<UnitIntervals>()) ==
          "must be a share of a bit such as '0.15 UI', not '?'");
}

TEST_CASE("every dimension's own example is read") {
    CHECK(read_quantity<Millimetres>("0.5 mm"));
    CHECK(read_quantity<SquareMillimetres>("0.09 mm2"));
    CHECK(read_quantity<Ohms>("50 mohm"));
    CHECK(read_quantity<Volts>("4.8 V"));
    CHECK(read_quantity<Amperes>("55 mA"));
    CHECK(read_quantity<Picoseconds>("150 ps"));
    CHECK(read_quantity<GigabitsPerSecond>("1.65 Gbit/s"));
    CHECK(read_quantity<Percent>("15 %"));
    CHECK(read_quantity<UnitIntervals>("0.15 UI"));
}

TEST_CASE("a whole number is decimal and wholly used up") {
    CHECK(parse_whole("010") == 10);
    CHECK(parse_whole("-3") == -3);
    CHECK(parse_whole("2147483647") == 2147483647);
    for (const char* text : {"", " 1", "1 ", "0x1F", "1e3", "1.0", "+5", "2147483648", "1_0"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_whole(text));
    }
}

TEST_CASE("a number is finite and wholly used up") {
    CHECK(parse_number("1e-3") == 0.001);
    CHECK(parse_number("010") == 10.0);
    for (const char* text : {"", "nan", "inf", "1e999", "1.5.2", "0x10", " 1", "1 "}) {
        CAPTURE(text);
        CHECK_FALSE(parse_number(text));
    }
}

}  // namespace pinfold
