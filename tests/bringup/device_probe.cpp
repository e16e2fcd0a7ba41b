// Readings with a device plugged in: what they should be, and what they tell when they are not.
#include "bringup/device_probe.hpp"

#include <catch2/catch.hpp>

#include "bringup/example.hpp"

namespace pinfold {
namespace {

using Catch::WithinRel;

struct LidLink : Planned {
    LidLink() : Planned(std::string("lid-link")) {}

    DeviceMeter meter{design, wiring};

    std::size_t device(const std::string& name) const {
        const auto found = std::ranges::find(design.boards, name, &Board::name);
        return static_cast<std::size_t>(found - design.boards.begin());
    }
    MeterReading with(const std::vector<std::string>& devices, const char* from,
                      const char* to) const {
        MeterReading reading;
        reading.from = point(from);
        reading.to = point(to);
        reading.closed = false;
        for (const std::string& name : devices) reading.with.push_back(device(name));
        return reading;
    }
    MeterReading ohms(MeterReading reading, double value) const {
        reading.ohms = Ohms(value);
        reading.closed = value <= most_when_closed.value();
        return reading;
    }
    MeterForecast sound(const MeterReading& reading) const {
        return meter.forecast(reading, {[&](Point any) { return wiring.piece_of(any); },
                                        [](std::size_t) { return false; }});
    }
    /// The plan's reading of a signal with a device plugged in.
    const DeviceProbe* probe_of(const std::string& device_name, const std::string& signal) const {
        for (const DeviceProbe& probe : plan.devices) {
            if (design.boards[probe.device].name != device_name) continue;
            if (probe.from_signal == signal || probe.to_signal == signal) return &probe;
        }
        return nullptr;
    }
};

/// What a good device gives: the middle of the window.
MeterReading as_expected(const DeviceProbe& probe) {
    MeterReading reading = probe.blank();
    const double middle = (probe.expected.least + probe.expected.most) / 2;
    if (probe.expected.part == MeterKind::diode) reading.volts = Volts(middle);
    if (probe.expected.part == MeterKind::resistance) reading.ohms = Ohms(middle);
    return reading;
}

std::vector<std::string> causes_of(const Diagnosis& told) {
    std::vector<std::string> causes;
    for (const Cause& cause : told.causes) causes.push_back(cause.cause + " " + cause.place);
    return causes;
}

}  // namespace

// Expected: 1.5 to 2 kohm at a source (HDMI 1.4, as a data sheet quotes it); the far end is where
// the other device would be.
TEST_CASE("a source's pull-up is read through the whole assembly, at the other end") {
    const LidLink link;
    const DeviceProbe* probe = link.probe_of("logger", "SDA");
    REQUIRE(probe != nullptr);
    CHECK(link.wiring.name_of(probe->from, link.design) == "lid.plug.16");
    CHECK(link.wiring.name_of(probe->to, link.design) == "lid.plug.18");
    CHECK(probe->expected.kind == MeterForecast::value);
    CHECK(probe->expected.least == 1500);
    CHECK(probe->expected.most == 2000);
    CHECK(probe->number > link.plan.probes.size());
}

// Expected: resistors in parallel, R1 R2 / (R1 + R2) (closed form).
TEST_CASE("with both devices plugged in their pull-ups stand side by side") {
    const LidLink link;
    MeterReading reading = link.with({"logger", "screen"}, "base.tail.SCL", "base.tail.5V");
    reading.ohms = 1800.0_ohm;
    const MeterForecast forecast = link.sound(reading);
    REQUIRE(forecast.kind == MeterForecast::value);
    CHECK_THAT(forecast.least, WithinRel(1500.0 * 42000 / (1500 + 42000), 1e-12));
    CHECK_THAT(forecast.most, WithinRel(2000.0 * 52000 / (2000 + 52000), 1e-12));
}

// Expected: parts side by side lower a value, they never raise it (closed form: 1/R adds up).
TEST_CASE("what nobody told of beside a known part can only lower the value") {
    const LidLink link;
    const MeterReading blank = link.with({"screen"}, "base.plug.15", "base.plug.18");
    MeterReading reading = link.ohms(blank, 47e3);
    const Point ground = link.point("screen.video.17"), clock = link.point("screen.video.15");
    // SCL bridged to ground: what is between ground and 5 V inside the screen nobody knows.
    const MeterForecast bridged = link.meter.forecast(
        reading, {[&](Point any) { return link.wiring.piece_of(any == ground ? clock : any); },
                  [](std::size_t) { return false; }});
    CHECK(bridged.kind == MeterForecast::value);
    CHECK(bridged.most == 52e3);
    CHECK(bridged.allows(link.ohms(blank, 3e3)));
    CHECK(bridged.allows(link.ohms(blank, 2)));
    CHECK_FALSE(bridged.allows(link.ohms(blank, 60e3)));
    CHECK_FALSE(bridged.allows(blank));
}

// Expected: what a meter does. A diode conducts one way; copper reads closed; a device nobody
// plugged in shows nothing; of what no pin map tells nothing is forecast.
TEST_CASE("a forecast says closed, open, a window, or that nobody knows") {
    const LidLink link;
    const auto kind = [&](const MeterReading& reading) { return link.sound(reading).kind; };
    CHECK(kind(link.with({"screen"}, "base.plug.1", "lid.plug.1")) == MeterForecast::closed);
    CHECK(kind(link.with({}, "base.plug.16", "base.plug.18")) == MeterForecast::open);
    CHECK(kind(link.with({"screen"}, "base.plug.17", "base.plug.1")) == MeterForecast::value);
    CHECK(kind(link.with({"screen"}, "base.plug.1", "base.plug.17")) == MeterForecast::unknown);
    CHECK(kind(link.with({"screen"}, "base.plug.1", "base.plug.3")) == MeterForecast::unknown);
}

// Expected: common practice of the bench, the thresholds said in the header.
TEST_CASE("a window allows what lies in it, open allows OL and what is as good as that") {
    const LidLink link;
    const MeterReading blank = link.with({"screen"}, "base.plug.16", "base.plug.18");
    MeterReading volts = blank;
    const MeterForecast window{MeterForecast::value, MeterKind::resistance, 42e3, 52e3};
    CHECK(window.allows(link.ohms(blank, 47e3)));
    CHECK_FALSE(window.allows(link.ohms(blank, 41e3)));
    CHECK_FALSE(window.allows(blank));
    const MeterForecast open{MeterForecast::open};
    CHECK(open.allows(blank));
    CHECK(open.allows(link.ohms(blank, 20e6)));
    CHECK_FALSE(open.allows(link.ohms(blank, 47e3)));
    volts.volts = Volts(2.6);
    CHECK(open.allows(volts));
    volts.volts = Volts(0.01);
    CHECK(MeterForecast{MeterForecast::closed}.allows(volts));
    CHECK_FALSE(open.allows(volts));
}

// Expected: what was planted. Without its device no reading of the bare plan can show it.
TEST_CASE("a plug's contact that does not touch its device shows with the device plugged in") {
    const LidLink link;
    std::size_t planted = 0;
    for (const Fault& fault : link.bench.faults) {
        if (!fault.at_device || fault.kind != FaultKind::open) continue;
        const Link& cut = link.wiring.links()[fault.change.cut.front()];
        MeterReadings readings = measured(link.bench, link.plan, link.bench.sound());
        bool is_shown = false;
        for (const DeviceProbe& probe : link.plan.devices) {
            readings.rows.push_back(as_expected(probe));
            const auto& parts = link.meter.parts();
            const bool is_its = std::ranges::any_of(parts, [&](const DevicePart& part) {
                const Point own = part.contacts.front();
                return part.device == probe.device && (own == cut.one || own == cut.other) &&
                       (part.signal == probe.from_signal || part.signal == probe.to_signal);
            });
            if (!is_its) continue;
            is_shown = true;
            readings.rows.back() = probe.blank();  // OL
        }
        if (!is_shown) continue;
        INFO(fault.text);
        ++planted;
        const Diagnosis told = diagnose(link.design, link.wiring, readings);
        CHECK(told.explained);
        const auto causes = causes_of(told);
        CHECK(std::ranges::find(causes, "open-contact " + fault.place) != causes.end());
    }
    CHECK(planted >= 20);
}

// Expected: a device whose pull-up is missing still has its diode; a contact that is open has
// neither.
TEST_CASE("the diode behind a contact tells a missing pull-up from an open contact") {
    const LidLink link;
    MeterReadings readings = measured(link.bench, link.plan, link.bench.sound());
    readings.rows.push_back(link.with({"screen"}, "base.plug.15", "base.plug.18"));
    const Diagnosis first = diagnose(link.design, link.wiring, readings);
    CHECK(causes_of(first) == std::vector<std::string>{"open-contact lid.plug.15",
                                                       "open-contact lid.plug.18",
                                                       "device-differs screen.video.15"});
    REQUIRE_FALSE(first.next.empty());
    CHECK(first.next.front().with == "screen");
    MeterReading diode = link.with({"screen"}, "base.plug.17", "base.plug.15");
    diode.volts = Volts(0.62);
    readings.rows.push_back(diode);
    const Diagnosis fitted = diagnose(link.design, link.wiring, readings);
    CHECK(causes_of(fitted) ==
          std::vector<std::string>{"open-contact lid.plug.18", "device-differs screen.video.15"});
    readings.rows.back() = link.with({"screen"}, "base.plug.17", "base.plug.15");
    const Diagnosis open = diagnose(link.design, link.wiring, readings);
    CHECK(causes_of(open) == std::vector<std::string>{"open-contact lid.plug.15"});
}

// Expected: half of 1.5 to 2 kohm where two such pull-ups are tied together lies in no window.
TEST_CASE("a value that nothing of the assembly explains is the device's own") {
    const LidLink link;
    MeterReadings readings = measured(link.bench, link.plan, link.bench.sound());
    readings.rows.push_back(link.ohms(link.with({"logger"}, "lid.plug.16", "lid.plug.18"), 4700));
    const Diagnosis told = diagnose(link.design, link.wiring, readings);
    CHECK(causes_of(told) == std::vector<std::string>{"device-differs logger.video.16"});
    CHECK(told.causes.front().text.find("logger itself shows another value") == 0);
}

// Expected: words we chose; contradictory readings are told, not averaged.
TEST_CASE("a device's value measured twice with different results is told") {
    const LidLink link;
    MeterReadings readings;
    const MeterReading blank = link.with({"logger"}, "lid.plug.16", "lid.plug.18");
    readings.rows = {link.ohms(blank, 1800), blank, link.ohms(blank, 1900)};
    for (int i = 0; i < 3; ++i) readings.rows[static_cast<std::size_t>(i)].row = i + 1;
    const Diagnosis told = diagnose(link.design, link.wiring, readings);
    REQUIRE(told.contradictions.size() == 1);
    CHECK(told.contradictions.front().rows == std::vector<int>{1, 2});
    CHECK(told.next.front().with == "logger");
}

}  // namespace pinfold
