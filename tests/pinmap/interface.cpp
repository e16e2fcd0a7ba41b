#include "pinmap/interface.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

namespace pinfold {

// Spellings: common practice of published pinouts. Code points: the Unicode character names in the
// comments.
TEST_CASE("a name is plain without case or separators") {
    CHECK(plain_name("TMDS_D2_P") == "TMDSD2P");
    CHECK(plain_name("tmds d2 p") == "TMDSD2P");
    CHECK(plain_name("TMDS-D2.P") == "TMDSD2P");
    CHECK(plain_name("Hot Plug Detect") == "HOTPLUGDETECT");
}

TEST_CASE("a sign at the end stays and tells the halves apart") {
    CHECK(plain_name("D2+") == "D2+");
    CHECK(plain_name("D2-") == "D2-");
    CHECK(plain_name("D_2_-") == "D2-");
    CHECK(plain_name("D2+") != plain_name("D2-"));
}

TEST_CASE("other minus and plus signs are the ASCII ones") {
    const char* const sign = GENERATE("\xE2\x88\x92",   // U+2212 minus sign
                                      "\xE2\x80\x90",   // U+2010 hyphen
                                      "\xE2\x80\x91",   // U+2011 non-breaking hyphen
                                      "\xE2\x80\x93",   // U+2013 en dash
                                      "\xE2\x80\x94",   // U+2014 em dash
                                      "\xEF\xBC\x8D",   // U+FF0D full-width hyphen-minus
                                      "\xEF\xB9\xA3",   // U+FE63 small hyphen-minus
                                      "\xE2\x81\xBB");  // U+207B superscript minus
    CHECK(plain_name(std::string("D2") + sign) == "D2-");
    CHECK(plain_name("D2\xEF\xBC\x8B") == "D2+");  // U+FF0B full-width plus sign
    CHECK(plain_name("D2\xE2\x81\xBA") == "D2+");  // U+207A superscript plus sign
}

TEST_CASE("a plus before a voltage and a point in it are kept apart from separators") {
    CHECK(plain_name("+5V") == "5V");
    CHECK(plain_name("+3.3V") == "3.3V");
    CHECK(plain_name("V.BUS") == "VBUS");
    CHECK(plain_name("5.V") == "5V");
    CHECK(plain_name(".5V") == "5V");
    CHECK(plain_name("5V.") == "5V");
    CHECK(plain_name("+A") == "+A");
    CHECK(plain_name("-5V") == "-5V");
    CHECK(plain_name("\xE2\x88\x92"
                     "12V") == "-12V");
    CHECK(plain_name("-A-B") == "AB");
    CHECK(plain_name("+") == "+");
}

TEST_CASE("a name of separators alone is nothing") {
    CHECK(plain_name("").empty());
    CHECK(plain_name(" _ ").empty());
    CHECK(plain_name(".").empty());
}

// Aliases: common practice; HDMI signal names as in the HDMI Specification 1.4.
TEST_CASE("a signal answers to every usual spelling of its name") {
    Library library = shipped_library();
    const Interface& hdmi = library.interface("hdmi", {});
    const auto means = [&](const char* text) {
        const auto signal = hdmi.find(text);
        return signal ? hdmi.signals[*signal].name : "nothing";
    };
    for (const char* text : {"D2+", "d2p", "TMDS_D2_P", "TMDS Data2+", "TMDS_DATA2_POS",
                             "HDMI_TX2P", "tx2+", "D2\xEF\xBC\x8B"}) {
        CAPTURE(text);
        CHECK(means(text) == "D2+");
    }
    for (const char* text : {"D2-", "D2N", "TMDS_D2_N", "D2M", "D2\xE2\x88\x92", "TMDS Data2-"}) {
        CAPTURE(text);
        CHECK(means(text) == "D2-");
    }
    CHECK(means("+5V") == "5V");
    CHECK(means("5 V") == "5V");
    CHECK(means("TMDS Clock-") == "CK-");
    CHECK(means("DDC/CEC Ground") == "GND");
    CHECK(means("D2") == "nothing");
    CHECK(means("") == "nothing");
    CHECK(means("-5V") == "nothing");
}

TEST_CASE("the limit at a rate is that of the first row that reaches it") {
    Interface interface;
    for (const double up_to : {1.65, 3.4, 6.0}) {
        Limit limit;
        limit.up_to = GigabitsPerSecond(up_to);
        interface.limits.push_back(limit);
    }
    CHECK(interface.limit_at(GigabitsPerSecond(0.1)) == &interface.limits[0]);
    CHECK(interface.limit_at(GigabitsPerSecond(1.65)) == &interface.limits[0]);
    CHECK(interface.limit_at(GigabitsPerSecond(1.66)) == &interface.limits[1]);
    CHECK(interface.limit_at(GigabitsPerSecond(6.0)) == &interface.limits[2]);
    CHECK(interface.limit_at(GigabitsPerSecond(6.1)) == nullptr);
}

}  // namespace pinfold
