#include "design/promise.hpp"

#include <catch2/catch.hpp>

#include "design/told.hpp"

namespace pinfold {
namespace {

/// A promise between two shipped connectors, each promised signal as `D2+ 1>2`.
std::vector<std::string> promised(const std::string& from, const std::string& to,
                                  const std::string& carry) {
    const Design design = design_of(
        "pinfold: 1\ntitle: promise\ndevices:\n"
        "  near: {ports: {p: " +
        from +
        " receptacle}}\n"
        "  far: {ports: {p: " +
        to +
        " receptacle}}\n"
        "carry:\n- {" +
        carry + ", from: near.p, to: far.p}\n");
    std::vector<std::string> told;
    for (const Promise& promise : promises_of(design, 0)) {
        told.push_back(fmt::format("{} {}>{}", design.signal_of(promise.from)->name,
                                   design.contact(promise.from).label,
                                   design.contact(promise.to).label));
    }
    return told;
}

}  // namespace

// Orders: HDMI Specification 1.4, as in tests/published/hdmi.cpp.
TEST_CASE("HDMI promises each signal to the contact of its name") {
    const auto all = promised("hdmi-a", "hdmi-d", "interface: hdmi");
    CHECK(all.size() == 19);
    CHECK(all[0] == "D2+ 1>3");
    CHECK(all[1] == "D2S 2>4");
    CHECK(all[12] == "CEC 13>15");
    CHECK(all[18] == "HPD 19>1");
}

// USB 3: transmit meets receive; Standard-A and Micro-B as in tests/published/usb.cpp.
TEST_CASE("USB 3 promises transmit to receive and no identity to a port without it") {
    const auto all = promised("usb3-a", "usb3-micro-b", "interface: usb3");
    CHECK(std::count(all.begin(), all.end(), "SSTX- 8>9") == 1);
    CHECK(std::count(all.begin(), all.end(), "SSTX+ 9>10") == 1);
    CHECK(std::count(all.begin(), all.end(), "SSRX+ 6>7") == 1);
    CHECK(std::count(all.begin(), all.end(), "D+ 3>3") == 1);
    CHECK(all.size() == 9);
    CHECK(promised("usb3-micro-b", "usb3-a", "interface: usb3").size() == 9);
}

// HDMI to DVI cable, as in tests/published/dvi.cpp.
TEST_CASE("a promise between two interfaces is of the signals both have") {
    const auto all = promised("hdmi-a", "dvi-d", "interface: dvi");
    CHECK(std::count(all.begin(), all.end(), "D2+ 1>2") == 1);
    CHECK(std::count(all.begin(), all.end(), "CK- 12>24") == 1);
    CHECK(std::count(all.begin(), all.end(), "5V 18>14") == 1);
    CHECK(std::count_if(all.begin(), all.end(),
                        [](const std::string& p) { return p.find("CEC") == 0; }) == 0);
}

TEST_CASE("a supply is promised with its returns") {
    CHECK(promised("hdmi-a", "hdmi-c", "supply: +5V") ==
          std::vector<std::string>{"D2S 2>1", "D1S 5>4", "D0S 8>7", "CKS 11>10", "GND 17>13",
                                   "5V 18>18"});
}

TEST_CASE("grounds beyond those of the far port share its last one") {
    const Design design = design_of(
        "pinfold: 1\ntitle: more grounds here than there\ndevices:\n"
        "  near: {ports: {p: {interface: csi, pads: [GND, GND, GND, SCL]}}}\n"
        "  far: {ports: {p: {interface: csi, pads: [SCL, GND, GND]}}}\n"
        "carry:\n- {interface: csi, from: near.p, to: far.p}\n");
    const auto promises = promises_of(design, 0);
    REQUIRE(promises.size() == 4);
    CHECK(promises[0].to.contact == 1);
    CHECK(promises[1].to.contact == 2);
    CHECK(promises[2].to.contact == 2);
    CHECK(promises[3].to.contact == 0);
}

TEST_CASE("the other half of a pair stands on the same port") {
    const Design design =
        design_of("pinfold: 1\ntitle: halves\ndevices:\n  near: {ports: {p: hdmi-a receptacle}}\n");
    CHECK(other_half_of(design, {{0, 0}, 0}) == ContactRef{{0, 0}, 2});
    CHECK(other_half_of(design, {{0, 0}, 2}) == ContactRef{{0, 0}, 0});
    CHECK_FALSE(other_half_of(design, {{0, 0}, 1}));
    CHECK_FALSE(other_half_of(design, {{0, 0}, 17}));
}

TEST_CASE("what a signal may meet depends on where") {
    const Design design = design_of(
        "pinfold: 1\ntitle: meetings\ndevices:\n"
        "  near: {ports: {p: usb2-a receptacle}}\n"
        "  far: {ports: {p: usb2-a receptacle}}\n"
        "  third: {ports: {p: {pads: [5V, GND, open, LAMP]}}}\n"
        "carry:\n- {interface: usb2, from: near.p, to: far.p}\n");
    const auto promises = promises_of(design, 0);
    const auto met = [&](std::size_t promise, std::size_t device, std::size_t contact) {
        return meet(design, promises[promise], {{device, 0}, contact});
    };
    const std::size_t supply = 0, minus = 1, ground = 3;
    CHECK(met(minus, 1, 1) == Meeting::wanted);
    CHECK(met(minus, 1, 2) == Meeting::other_half);
    CHECK(met(minus, 1, 3) == Meeting::other);
    CHECK(met(minus, 0, 1) == Meeting::nothing);
    CHECK(met(minus, 0, 2) == Meeting::clash);
    CHECK(met(minus, 2, 0) == Meeting::clash);
    CHECK(met(minus, 2, 2) == Meeting::nothing);
    CHECK(met(minus, 2, 3) == Meeting::clash);
    CHECK(met(supply, 2, 0) == Meeting::nothing);
    CHECK(met(supply, 2, 1) == Meeting::clash);
    CHECK(met(supply, 1, 3) == Meeting::other);
    CHECK(met(ground, 2, 1) == Meeting::nothing);
    CHECK(met(ground, 2, 0) == Meeting::clash);
    CHECK(met(ground, 1, 3) == Meeting::wanted);
    CHECK(met(ground, 1, 0) == Meeting::other);
}

}  // namespace pinfold
