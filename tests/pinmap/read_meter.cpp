// What a device shows a meter, as pin maps say it: read strictly.
#include <catch2/catch.hpp>

#include "pinmap/read.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

std::string with_meter(const std::string& lines) {
    return "pinfold-interface: 1\nname: two wires\nsource: invented\nends: [giver, taker]\n"
           "signals:\n"
           "- {signal: A, role: low-speed, direction: both}\n"
           "- {signal: B, role: low-speed, direction: both}\n"
           "- {signal: V, role: supply, direction: forward}\n"
           "- {signal: GND, role: ground, direction: none}\n"
           "meter:\n" +
           lines;
}

Interface read(const std::string& lines) {
    return read_interface("two-wires", text_source(with_meter(lines)));
}

std::string refusal(const std::string& lines) {
    return complaint([&] { read(lines); });
}

}  // namespace

// Expected: what the text says.
TEST_CASE("a pull-up and a diode are read with their window, end and source") {
    const Interface interface = read(
        "- {signals: [A, B], against: V, end: giver, kind: resistance, least: 1.5 kohm, most: 2 "
        "kohm, source: invented}\n"
        "- {signals: [A], against: ground, kind: diode, least: 300 mV, most: 0.7 V, source: "
        "invented}\n");
    REQUIRE(interface.meter.size() == 2);
    const MeterWindow& pull_up = interface.meter[0];
    CHECK(pull_up.signals == std::vector<std::size_t>{0, 1});
    CHECK(pull_up.against == 2);
    CHECK(pull_up.end == "giver");
    CHECK(pull_up.least == 1500);
    CHECK(pull_up.most == 2000);
    const MeterWindow& diode = interface.meter[1];
    CHECK(diode.kind == MeterKind::diode);
    CHECK_FALSE(diode.against);
    CHECK(diode.end.empty());
    CHECK(diode.least == 0.3);
}

// Expected: words we chose.
TEST_CASE("what no meter could show is refused where it is written") {
    const std::string tail = ", source: invented}\n";
    const std::string ohms = ", kind: resistance, least: 1 kohm, most: 2 kohm" + tail;
    CHECK(refusal("- {signals: [C], against: V" + ohms).find("no signal 'C' in this interface") !=
          std::string::npos);
    CHECK(refusal("- {signals: [A], against: A" + ohms).find("A is measured against itself") !=
          std::string::npos);
    CHECK(refusal("- {signals: [A], against: V, end: middle" + ohms)
              .find("'end' is giver or taker, not 'middle' [meter-end]") != std::string::npos);
    CHECK(
        refusal("- {signals: [A], against: V, kind: resistance, least: 2 kohm, most: 2 kohm" + tail)
            .find("'least' must be below 'most' [meter-window]") != std::string::npos);
    CHECK(refusal("- {signals: [A], against: V, kind: resistance, least: 1 V, most: 2 kohm" + tail)
              .find("'least' must be a resistance") != std::string::npos);
    CHECK(refusal("- {signals: [A], against: B, kind: diode, least: 0.3 V, most: 0.7 V" + tail)
              .find("a diode is read against ground or a supply, and B is neither") !=
          std::string::npos);
    CHECK(refusal("- {signals: [A], against: V, kind: resistance, least: 1 kohm, most: 2 kohm}\n")
              .find("'source' is missing") != std::string::npos);
}

// Expected: words we chose; windows of the two ends do not clash.
TEST_CASE("a signal has one window of a kind at each end") {
    const std::string one =
        "- {signals: [A], against: V, end: giver, kind: resistance, least: 1 kohm, most: 2 kohm, "
        "source: invented}\n";
    const std::string other =
        "- {signals: [B, A], against: V, end: taker, kind: resistance, least: 1 kohm, most: 2 "
        "kohm, source: invented}\n";
    CHECK(read(one + other).meter.size() == 2);
    CHECK(refusal(one + one).find("a signal has two windows of one kind here [meter-twice]") !=
          std::string::npos);
}

}  // namespace pinfold
