#include "exchange/csv.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

using namespace pinfold;

// RFC 4180, section 2, rules 1 to 7.
TEST_CASE("lines end in CR LF, and cells with commas, quotes and line ends are quoted") {
    CHECK(write_csv({{"kind", "text"}, {"note", "a, \"b\"\nc"}}) ==
          "kind,text\r\nnote,\"a, \"\"b\"\"\nc\"\r\n");
}

// What a spreadsheet was measured to do with the bare cell, or is said to do (from memory).
TEST_CASE("cells a spreadsheet would misread get one apostrophe") {
    const auto cell = GENERATE(as<std::string>{}, "+5V", "-", "-12V", "=1+1", "=cmd|' /C calc'!A0",
                               "@x", "1-2", "010", "1E3", "1/2", "5%", "0x1F", "3.3", "5V", "12:30",
                               "TRUE", "false", "Wahr", "MAR1", "Sep-2", "June 3, 24", "\tx", "\rx",
                               " x", "'quoted", "#N/A", "1234567890123456", "＝1+1", "\"x");
    CHECK(could_be_misread(cell));
    CHECK(read_csv(write_csv({{"a", cell, "b"}})) == CsvRows{{"a", cell, "b"}});
}

TEST_CASE("plain words and whole numbers stand as they are") {
    const auto cell =
        GENERATE(as<std::string>{}, "GND", "D2+", "base.tail.10", "guard D2, D1", "", "0", "7",
                 "120", "SUPPLY", "D2 -", "A6", "J1", "HPD", "True story", "Contact 1: left", "D2");
    CHECK_FALSE(could_be_misread(cell));
    CHECK(read_csv(write_csv({{"a", cell}})) == CsvRows{{"a", cell}});
}

TEST_CASE("the apostrophe comes off once") {
    CHECK(write_csv({{"'x"}}) == "''x\r\n");
    CHECK(read_csv("''x\r\n") == CsvRows{{"'x"}});
    CHECK(read_csv("'+5V,\"'=1\"\r\n") == CsvRows{{"+5V", "=1"}});
}

TEST_CASE("a byte order mark stands only before what is not plain ASCII, and is no data") {
    CHECK(write_csv({{"GND"}}).front() == 'G');
    CHECK(write_csv({{"Bö"}}) ==
          "\xEF\xBB\xBF"
          "Bö\r\n");
    CHECK(read_csv("\xEF\xBB\xBF"
                   "Bö\r\n") == CsvRows{{"Bö"}});
}

TEST_CASE("other people's line ends are read too") {
    CHECK(read_csv("a,b\nc,d") == CsvRows{{"a", "b"}, {"c", "d"}});
    CHECK(read_csv("a,\r\n,\r\n") == CsvRows{{"a", ""}, {"", ""}});
    CHECK(read_csv("a,") == CsvRows{{"a", ""}});
    CHECK(read_csv("").empty());
    CHECK(read_csv(write_csv({{""}, {"a"}})) == CsvRows{{""}, {"a"}});
}

TEST_CASE("quotes that cannot be are refused with their line") {
    CHECK(complaint([] { read_csv("a\r\n\"b"); }) ==
          "error: a quote that is never closed in line 2 of the table [csv-quote]\n");
    CHECK(complaint([] { read_csv("a\"b"); }) ==
          "error: a quote inside a cell without quotes in line 1 of the table [csv-quote]\n");
    CHECK(complaint([] { read_csv("\"a\"b"); }) ==
          "error: text after a closing quote in line 1 of the table [csv-quote]\n");
}
