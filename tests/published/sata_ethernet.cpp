// Serial ATA signal and power parts, and Ethernet on 8P8C, as public tables print them.
#include <catch2/catch.hpp>

#include <algorithm>

#include "published/order.hpp"

namespace pinfold {

using Words = std::vector<std::string>;

// A book's tables of the signal and the power part, a workstation manual, a board maker's manual.
TEST_CASE("the SATA signal part has plus first in A and minus first in B", "[published]") {
    CHECK(shipped_order("sata-signal") == Words{"GND", "A+", "A-", "GND", "B-", "B+", "GND"});
    CHECK(shipped_labels("sata-signal") == Words{"S1", "S2", "S3", "S4", "S5", "S6", "S7"});
}

TEST_CASE("the SATA power part bears the published supplies", "[published]") {
    CHECK(shipped_order("sata-power") ==
          meant("sata-power",
                {"3V3", "3V3", "3.3V pre-charge", "GND", "GND", "GND", "5V pre-charge", "5V", "5V",
                 "GND", "Reserved", "GND", "12V pre-charge", "12V", "12V"}));
}

// Two public tables print other orders for the power part; whatever they print, three supplies of
// three contacts each with their grounds between them are the book's.
TEST_CASE("the SATA power part has its supplies in threes from low to high voltage",
          "[published]") {
    const auto power = shipped_order("sata-power");
    CHECK(std::count(power.begin(), power.end(), "GND") == 5);
    CHECK(power[7] == "5V");
    CHECK(power[13] == "12V");
    CHECK(power[14] == "12V");
    auto backwards = power;
    std::reverse(backwards.begin(), backwards.end());
    CHECK(power != backwards);
}

// IEEE 802.3 1000BASE-T, MDI side; four public tables agree.
TEST_CASE("8P8C has the second pair on contacts 3 and 6", "[published]") {
    CHECK(shipped_order("ethernet-8p8c") ==
          Words{"BI_DA+", "BI_DA-", "BI_DB+", "BI_DC+", "BI_DC-", "BI_DB-", "BI_DD+", "BI_DD-"});
    CHECK(meant("ethernet", {"TX+", "TX-", "RX+", "RX-"}) ==
          Words{"BI_DA+", "BI_DA-", "BI_DB+", "BI_DB-"});
}

}  // namespace pinfold
