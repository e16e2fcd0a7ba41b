// Device parts: the pull-ups and diodes behind a device's contacts, as a meter would see them.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "bringup/reading.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// What a device shows between two of its signals, by the pin map of the port's interface.
struct DevicePart {
    std::size_t device = 0;  ///< in the design's boards
    MeterKind kind = MeterKind::resistance;
    double least = 0, most = 0;            ///< in ohms, or in volts for a diode
    std::vector<Point> contacts, against;  ///< the device's own, of one port
    bool red_on_contact = true;            ///< where the red probe stands for a diode to conduct
    std::string signal, against_name;
    std::string source;
};

/// The parts of every device at a promised interface: the near one as its first end, the far one
/// as its second.
std::vector<DevicePart> device_parts(const Design& design, const Wiring& wiring);

/// What a meter should show; `unknown` where a device has something nobody has told us of. Beside a
/// part that is known, that can only lower the value: such a window begins at nothing.
struct MeterForecast {
    enum Kind { closed, open, value, unknown } kind = unknown;
    MeterKind part = MeterKind::resistance;
    double least = 0, most = 0;

    bool allows(const MeterReading& reading) const;
};

/// `1.5 to 2 kohm`, `0.3 to 0.7 V, diode`, `open`, `closed`.
std::string in_words(const MeterForecast& forecast);

/// The assembly a forecast is for: by point its piece, by part whether it is spoilt.
struct DeviceView {
    std::function<std::uint32_t(Point)> piece;
    std::function<bool(std::size_t)> is_spoilt;
};

/// Forecasts readings of an assembly with some of its devices plugged in, without power.
class DeviceMeter {
public:
    DeviceMeter(const Design& design, const Wiring& wiring);

    const std::vector<DevicePart>& parts() const { return parts_; }
    /// The contacts of the devices that anything hangs on.
    const std::vector<Point>& contacts() const { return points_; }

    /// Parts side by side add up: resistances in parallel, of diodes the lowest. Volts are
    /// forecast from diodes alone, ohms from resistances alone.
    MeterForecast forecast(const MeterReading& reading, const DeviceView& view) const;

private:
    struct Contact {
        Point point;
        std::size_t device;
    };
    std::vector<Contact> touched(Point point, const MeterReading& reading,
                                 const DeviceView& view) const;
    /// The parts between two contacts that this meter sees.
    std::vector<std::size_t> parts_between(Point one, Point other,
                                           const MeterReading& reading) const;

    std::vector<DevicePart> parts_;
    /// By a part's contact and what it is measured against: parts.
    std::map<std::pair<Point, Point>, std::vector<std::size_t>> between_;
    std::vector<Contact> contacts_;
    std::vector<Point> points_;
};

}  // namespace pinfold
