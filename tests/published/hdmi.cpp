// HDMI Specification 1.4, pin assignments of Type A, C and D, as public tables print them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

#include "published/order.hpp"

namespace pinfold {
namespace {

/// One row of the cross table: the signal in its words, and its contact on each connector.
struct Row {
    const char* signal;
    int a, c, d;
};

// Sources: a public cross table of the three connectors; for A also the licensing body's cable page
// (hdmi.org) and a printer's manual; for C a tester's manual and a board's manual; for D a protocol
// note's table and an article that lists the contacts of the pairs.
const std::vector<Row> cross_table{
    {"TMDS Data2+", 1, 2, 3},
    {"TMDS Data2 Shield", 2, 1, 4},
    {"TMDS Data2-", 3, 3, 5},
    {"TMDS Data1+", 4, 5, 6},
    {"TMDS Data1 Shield", 5, 4, 7},
    {"TMDS Data1-", 6, 6, 8},
    {"TMDS Data0+", 7, 8, 9},
    {"TMDS Data0 Shield", 8, 7, 10},
    {"TMDS Data0-", 9, 9, 11},
    {"TMDS Clock+", 10, 11, 12},
    {"TMDS Clock Shield", 11, 10, 13},
    {"TMDS Clock-", 12, 12, 14},
    {"CEC", 13, 14, 15},
    {"Utility", 14, 17, 2},
    {"SCL", 15, 15, 17},
    {"SDA", 16, 16, 18},
    {"DDC/CEC Ground", 17, 13, 16},
    {"+5V Power", 18, 18, 19},
    {"Hot Plug Detect", 19, 19, 1},
};

std::vector<std::string> order_by(int Row::*contact) {
    std::map<int, std::string> by_contact;
    for (const Row& row : cross_table) by_contact[row.*contact] = row.signal;
    std::vector<std::string> words;
    for (const auto& [number, word] : by_contact) words.push_back(word);
    return meant("hdmi", words);
}

const std::vector<std::string> type_a{"D2+", "D2S", "D2-", "D1+", "D1S", "D1-", "D0+",
                                      "D0S", "D0-", "CK+", "CKS", "CK-", "CEC", "UTIL",
                                      "SCL", "SDA", "GND", "5V",  "HPD"};

}  // namespace

TEST_CASE("HDMI Type A and C and D bear the signals of the cross table", "[published]") {
    CHECK(shipped_order("hdmi-a") == order_by(&Row::a));
    CHECK(shipped_order("hdmi-c") == order_by(&Row::c));
    CHECK(shipped_order("hdmi-d") == order_by(&Row::d));
}

TEST_CASE("the cross table uses every contact from 1 to 19 once on each connector", "[published]") {
    for (const auto contact : {&Row::a, &Row::c, &Row::d}) {
        std::vector<int> numbers;
        for (const Row& row : cross_table) numbers.push_back(row.*contact);
        std::sort(numbers.begin(), numbers.end());
        for (int i = 0; i < 19; ++i) CHECK(numbers[static_cast<std::size_t>(i)] == i + 1);
    }
}

// The licensing body's own table, in the short names of this library.
TEST_CASE("HDMI Type A begins with data pair 2 and ends with hot plug detect", "[published]") {
    CHECK(shipped_order("hdmi-a") == type_a);
}

// An article of a trade magazine in prose: D0+, D1+ and D2+ on 9, 6 and 3; D0-, D1- and D2- on 11,
// 8 and 5; their shields on 10, 7 and 4.
TEST_CASE("HDMI Type D has its pairs where an article puts them", "[published]") {
    const auto d = shipped_order("hdmi-d");
    CHECK((d[8] == "D0+" && d[5] == "D1+" && d[2] == "D2+"));
    CHECK((d[10] == "D0-" && d[7] == "D1-" && d[4] == "D2-"));
    CHECK((d[9] == "D0S" && d[6] == "D1S" && d[3] == "D2S"));
}

// Wrong public tables, which the library must not agree with.
TEST_CASE("HDMI Type D is neither Type A nor Type C as some public tables print", "[published]") {
    CHECK(shipped_order("hdmi-d") != shipped_order("hdmi-a"));
    CHECK(shipped_order("hdmi-d") != shipped_order("hdmi-c"));
}

TEST_CASE("HDMI Type C does not end like Type A as a public table prints", "[published]") {
    auto wrong = shipped_order("hdmi-c");
    wrong[12] = "CEC";
    wrong[13] = "UTIL";
    wrong[16] = "GND";
    CHECK(shipped_order("hdmi-c") != wrong);
    CHECK(shipped_order("hdmi-c")[12] == "GND");
}

TEST_CASE("HDMI Type C is no Type A made smaller", "[published]") {
    const auto c = shipped_order("hdmi-c");
    CHECK(c != type_a);
    for (const std::size_t shield : {0u, 3u, 6u, 9u}) CHECK(c[shield].back() == 'S');
}

TEST_CASE("HDMI Type A has data pair 2 on contact 1 and not 0 as a board's manual prints",
          "[published]") {
    const auto a = shipped_order("hdmi-a");
    CHECK(a[0] == "D2+");
    CHECK(a[6] == "D0+");
    CHECK(a[9] == "CK+");
}

TEST_CASE("HDMI Type D has signals on contacts 2 to 9 that a public table calls reserved",
          "[published]") {
    const auto d = shipped_order("hdmi-d");
    CHECK(std::count(d.begin(), d.end(), "open") == 0);
}

// Category 1 and 2 cable assemblies, from memory; a public page prints 4.8 ps and 7.2 ns instead.
TEST_CASE("the skews of HDMI cables are not those a forum prints", "[published]") {
    Library library = shipped_library();
    for (const Limit& limit : library.interface("hdmi", {}).limits) {
        CHECK(limit.skew_in_pair != 4.8_ps);
        CHECK(limit.skew_between_pairs != 7200.0_ps);
    }
}

// HDMI's own limits of the supply: 4.8 V to 5.3 V at the source with 55 mA, 4.7 V at the sink; two
// public documents (design notes, a protection chip's data sheet).
TEST_CASE("the supply of HDMI has the window of the published limits", "[published]") {
    Library library = shipped_library();
    const Interface& hdmi = library.interface("hdmi", {});
    const Supply* five = hdmi.supply_of(*hdmi.find("+5V"));
    REQUIRE(five != nullptr);
    CHECK(five->least_at_source == 4.8_V);
    CHECK(five->most_at_source == 5.3_V);
    CHECK(five->least_at_sink == 4.7_V);
    CHECK(five->current->value() == Approx(0.055));
}

}  // namespace pinfold
