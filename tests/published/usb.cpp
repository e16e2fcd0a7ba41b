// USB 2.0, USB 3.x and USB Type-C connectors, as public tables print them.
#include <catch2/catch.hpp>

#include <algorithm>

#include "published/order.hpp"

namespace pinfold {

// Three public documents agree on Standard-A, two part records on Micro-B.
TEST_CASE("USB 2.0 Standard-A and Micro-B bear the published signals", "[published]") {
    CHECK(shipped_order("usb2-a") == std::vector<std::string>{"VBUS", "D-", "D+", "GND"});
    CHECK(shipped_order("usb2-micro-b") ==
          std::vector<std::string>{"VBUS", "D-", "D+", "ID", "GND"});
}

// Three public tables agree.
TEST_CASE("USB 3 Standard-A bears the published signals", "[published]") {
    CHECK(shipped_order("usb3-a") ==
          meant("usb3", {"VBUS", "D-", "D+", "GND", "StdA_SSRX-", "StdA_SSRX+", "GND_DRAIN",
                         "StdA_SSTX-", "StdA_SSTX+"}));
}

// From memory (USB 3.x, chapter 5); no good public table.
TEST_CASE("USB 3 Micro-B has its identity on contact 4 and sends on 6 and 7", "[published]") {
    CHECK(shipped_order("usb3-micro-b") ==
          meant("usb3", {"VBUS", "D-", "D+", "ID", "GND", "MicB_SSTX-", "MicB_SSTX+", "GND_DRAIN",
                         "MicB_SSRX-", "MicB_SSRX+"}));
}

// A public table prints Standard-A with one more ground, and no ID, under the name Micro-B.
TEST_CASE("USB 3 Micro-B is no Standard-A with another ground", "[published]") {
    auto wrong = shipped_order("usb3-a");
    wrong.emplace_back("GND");
    const auto micro = shipped_order("usb3-micro-b");
    CHECK(micro != wrong);
    CHECK(std::count(micro.begin(), micro.end(), "ID") == 1);
    CHECK(micro[5] == "SSTX-");
    CHECK(shipped_order("usb3-a")[4] == "SSRX-");
}

// Names are from each connector's own side, so a cable joins transmit to receive (USB 3.x).
TEST_CASE("USB 3 transmit meets receive", "[published]") {
    Library library = shipped_library();
    const Interface& usb3 = library.interface("usb3", {});
    const auto met = [&](const char* signal) {
        return usb3.signals[usb3.counterpart[*usb3.find(signal)]].name;
    };
    CHECK(met("SSTX+") == "SSRX+");
    CHECK(met("SSTX-") == "SSRX-");
    CHECK(met("SSRX+") == "SSTX+");
    CHECK(met("D+") == "D+");
    CHECK(met("GND") == "GND");
}

// Four public documents agree on the receptacle, one of them with its face drawn.
TEST_CASE("the Type-C receptacle bears the published signals in both rows", "[published]") {
    const std::vector<std::string> row_a{"GND", "TX1+", "TX1-", "VBUS", "CC1",  "D+",
                                         "D-",  "SBU1", "VBUS", "RX2-", "RX2+", "GND"};
    const std::vector<std::string> row_b{"GND", "TX2+", "TX2-", "VBUS", "CC2",  "D+",
                                         "D-",  "SBU2", "VBUS", "RX1-", "RX1+", "GND"};
    auto both = row_a;
    both.insert(both.end(), row_b.begin(), row_b.end());
    CHECK(shipped_order("usb-c") == both);

    std::vector<std::string> labels;
    for (const char* row : {"A", "B"}) {
        for (int i = 1; i <= 12; ++i) labels.push_back(row + std::to_string(i));
    }
    CHECK(shipped_labels("usb-c") == labels);
}

// A public manual's table and an article in prose: CC on A5, VCONN on B5, nothing on B6 and B7.
TEST_CASE("the Type-C plug has one pair of data contacts", "[published]") {
    const auto plug = shipped_order("usb-c", Gender::plug);
    const auto receptacle = shipped_order("usb-c");
    for (std::size_t i = 0; i < plug.size(); ++i) {
        CAPTURE(i);
        CHECK(plug[i] == (i == 17 || i == 18 ? "absent" : receptacle[i]));
    }
    CHECK(meant("usb-c", {"CC", "VCONN"}) == std::vector<std::string>{"CC1", "CC2"});
}

// The receptacle is the same turned by half a turn but for the index of TX, RX, CC and SBU.
TEST_CASE("flipping a Type-C plug exchanges 1 and 2 and leaves supply and ground and data",
          "[published]") {
    const auto order = shipped_order("usb-c");
    for (std::size_t i = 0; i < 12; ++i) {
        std::string exchanged = order[i];
        for (char& c : exchanged) c = c == '1' ? '2' : c == '2' ? '1' : c;
        CAPTURE(i);
        CHECK(order[i + 12] == exchanged);
    }
}

// Full-featured cable, from memory: TX1 on RX1, TX2 on RX2, SBU1 on SBU2.
TEST_CASE("between two Type-C receptacles transmit meets receive of one number", "[published]") {
    Library library = shipped_library();
    const Interface& usb = library.interface("usb-c", {});
    const auto met = [&](const char* signal) {
        return usb.signals[usb.counterpart[*usb.find(signal)]].name;
    };
    CHECK(met("TX1+") == "RX1+");
    CHECK(met("TX2-") == "RX2-");
    CHECK(met("SBU1") == "SBU2");
    CHECK(met("CC1") == "CC1");
    CHECK(met("VBUS") == "VBUS");
}

}  // namespace pinfold
