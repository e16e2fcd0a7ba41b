// Camera, display and panel ribbons: CSI-2, DSI, eDP and LVDS connectors, as public tables print
// them.
#include <catch2/catch.hpp>

#include <algorithm>

#include "published/order.hpp"

namespace pinfold {

using Words = std::vector<std::string>;

// One public camera-module page, and a second one for the beginning of the 15-way.
TEST_CASE("the camera ribbons bear lane 0 then 1 then the clock", "[published]") {
    const Words camera_15{"GND", "D0-", "D0+", "GND", "D1-", "D1+", "GND", "CK-",
                          "CK+", "GND", "IO0", "IO1", "SCL", "SDA", "3V3"};
    const Words camera_22{"GND", "D0-", "D0+", "GND", "D1-", "D1+", "GND", "CK-",
                          "CK+", "GND", "D2-", "D2+", "GND", "D3-", "D3+", "GND",
                          "IO0", "IO1", "GND", "SCL", "SDA", "3V3"};
    CHECK(shipped_order("csi-15") == camera_15);
    CHECK(shipped_order("csi-22") == camera_22);
}

// One public board file.
TEST_CASE("the 15-way display ribbon bears lane 1 then the clock then lane 0", "[published]") {
    const Words display_15{"GND", "D1-", "D1+", "GND", "CK-", "CK+", "GND", "D0-",
                           "D0+", "GND", "SCL", "SDA", "GND", "3V3", "3V3"};
    CHECK(shipped_order("dsi-15") == display_15);
}

// From memory: lanes as on the 22-way camera ribbon.
TEST_CASE("the 22-way display ribbon bears the lanes of the camera ribbon", "[published]") {
    auto display = shipped_order("dsi-22");
    auto camera = shipped_order("csi-22");
    display.resize(16);
    camera.resize(16);
    CHECK(display == camera);
}

TEST_CASE("camera and display ribbons of 15 ways are not alike", "[published]") {
    const auto camera = shipped_order("csi-15");
    const auto display = shipped_order("dsi-15");
    CHECK(camera[12] == "SCL");
    CHECK(display[12] == "GND");
    CHECK(std::count(camera.begin(), camera.end(), "3V3") == 1);
    CHECK(std::count(display.begin(), display.end(), "3V3") == 2);
}

// Another board's document numbers its 22-way the other way round, plus before minus, with a clock
// for the camera: 3V3 1, SDA 2, SCL 3, GND 4, MCLK 5, PWDN 6, GND 7, D3+ 8, D3- 9. As far as it is
// quoted that is our row counted from its other end, MCLK and PWDN being IO1 and IO0.
TEST_CASE("the 22-way camera ribbon is that of the board that counts from the other end",
          "[published]") {
    const auto camera = shipped_order("csi-22");
    const auto other =
        meant("csi", {"3V3", "SDA", "SCL", "GND", "MCLK", "PWDN", "GND", "D3+", "D3-"});
    CHECK_FALSE(std::equal(other.begin(), other.end(), camera.begin()));
    CHECK(std::equal(other.begin(), other.end(), camera.rbegin()));
}

// A laptop maker's open document with misprints corrected, and from memory.
TEST_CASE("the 30-way eDP panel bears the published signals", "[published]") {
    const Words panel{"open",    "H_GND",  "Lane1-",   "Lane1+",    "H_GND",      "Lane0-",
                      "Lane0+",  "H_GND",  "AUX_CH_P", "AUX_CH_N",  "H_GND",      "LCD_VCC",
                      "LCD_VCC", "BIST",   "LCD_GND",  "LCD_GND",   "HPD",        "BL_GND",
                      "BL_GND",  "BL_GND", "BL_GND",   "BL_ENABLE", "BL_PWM_DIM", "open",
                      "open",    "BL_PWR", "BL_PWR",   "BL_PWR",    "BL_PWR",     "open"};
    CHECK(shipped_order("edp-30") == meant("edp", panel));
}

// A public page puts the backlight supply on 20 and 21 and ground on 24 and 25.
TEST_CASE("the 30-way eDP panel has ground on 20 and 21 and nothing on 24 and 25", "[published]") {
    const auto panel = shipped_order("edp-30");
    CHECK(panel[19] == "GND");
    CHECK(panel[20] == "GND");
    CHECK(panel[23] == "open");
    CHECK(panel[24] == "open");
}

// A public copy of a panel specification, and from memory.
TEST_CASE("the 40-way eDP panel bears the published signals", "[published]") {
    const Words panel{"open",    "H_GND",     "Lane3_N",    "Lane3_P",       "H_GND",   "Lane2_N",
                      "Lane2_P", "H_GND",     "Lane1_N",    "Lane1_P",       "H_GND",   "Lane0_N",
                      "Lane0_P", "H_GND",     "AUX_CH_P",   "AUX_CH_N",      "H_GND",   "LCD_VCC",
                      "LCD_VCC", "LCD_VCC",   "LCD_VCC",    "LCD_Self_Test", "LCD_GND", "LCD_GND",
                      "LCD_GND", "LCD_GND",   "HPD",        "BL_GND",        "BL_GND",  "BL_GND",
                      "BL_GND",  "BL_ENABLE", "BL_PWM_DIM", "open",          "open",    "BL_PWR",
                      "BL_PWR",  "BL_PWR",    "BL_PWR",     "open"};
    CHECK(shipped_order("edp-40") == meant("edp", panel));
}

// Both documents: minus first in the lanes, plus first in the auxiliary channel.
TEST_CASE("eDP has minus first except in the auxiliary channel", "[published]") {
    const auto panel = shipped_order("edp-40");
    for (const std::size_t minus : {2u, 5u, 8u, 11u}) CHECK(panel[minus].back() == '-');
    CHECK(panel[14] == "AUX+");
    CHECK(panel[15] == "AUX-");
}

// Two public tables agree; the second channel's contacts are open here.
TEST_CASE("the 30-way LVDS panel bears the published signals of one channel", "[published]") {
    const Words panel{"GND",       "VDD",    "VDD",    "EDID VDD", "open",   "EDID clock",
                      "EDID data", "RXIN0-", "RXIN0+", "GND",      "RXIN1-", "RXIN1+",
                      "GND",       "RXIN2-", "RXIN2+", "GND",      "CLK-",   "CLK+",
                      "GND",       "open",   "open",   "GND",      "open",   "open",
                      "GND",       "open",   "open",   "GND",      "open",   "open"};
    CHECK(shipped_order("lvds-30") == meant("lvds-panel", panel));
}

}  // namespace pinfold
