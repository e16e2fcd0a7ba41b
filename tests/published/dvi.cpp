// DVI 1.0, digital contacts of the 24-contact connector, as four display manuals print them.
#include <catch2/catch.hpp>

#include "published/order.hpp"

namespace pinfold {

TEST_CASE("DVI-D bears the signals of the display manuals", "[published]") {
    const std::vector<std::string> words{"TMDS Data2-",
                                         "TMDS Data2+",
                                         "TMDS Data2/4 Shield",
                                         "TMDS Data4-",
                                         "TMDS Data4+",
                                         "DDC Clock",
                                         "DDC Data",
                                         "open",
                                         "TMDS Data1-",
                                         "TMDS Data1+",
                                         "TMDS Data1/3 Shield",
                                         "TMDS Data3-",
                                         "TMDS Data3+",
                                         "+5V Power",
                                         "GND",
                                         "Hot Plug Detect",
                                         "TMDS Data0-",
                                         "TMDS Data0+",
                                         "TMDS Data0/5 Shield",
                                         "TMDS Data5-",
                                         "TMDS Data5+",
                                         "TMDS Clock Shield",
                                         "TMDS Clock+",
                                         "TMDS Clock-"};
    CHECK(shipped_order("dvi-d") == meant("dvi", words));
}

// The same manuals: minus comes first in every data pair, plus first in the clock.
TEST_CASE("DVI-D has minus first except in the clock", "[published]") {
    const auto dvi = shipped_order("dvi-d");
    for (const std::size_t minus : {0u, 3u, 8u, 11u, 16u, 19u}) CHECK(dvi[minus].back() == '-');
    CHECK(dvi[22] == "CK+");
    CHECK(dvi[23] == "CK-");
}

// A public table of HDMI to DVI cables: HDMI Type A contact k on DVI contact n.
TEST_CASE("an HDMI to DVI cable joins equal names", "[published]") {
    const std::vector<std::pair<int, int>> cable{
        {1, 2},   {2, 3},   {3, 1},   {4, 10}, {5, 11}, {6, 9},   {7, 18},  {8, 19}, {9, 17},
        {10, 23}, {11, 22}, {12, 24}, {15, 6}, {16, 7}, {17, 15}, {18, 14}, {19, 16}};
    const auto hdmi = shipped_order("hdmi-a");
    const auto dvi = shipped_order("dvi-d");
    for (const auto& [from, to] : cable) {
        CAPTURE(from, to);
        CHECK(hdmi[static_cast<std::size_t>(from - 1)] == dvi[static_cast<std::size_t>(to - 1)]);
    }
}

}  // namespace pinfold
