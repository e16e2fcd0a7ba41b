// Readings: what was measured between two points of the assembly.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "bringup/bench.hpp"

namespace pinfold {

/// At most so much is closed: probes, contacts and a metre of fine ribbon stay below (common
/// practice; a meter's beep goes to 30 or 50 ohm).
constexpr Ohms most_when_closed{10.0};
/// At least so much is open: no copper has it; parts of a device may.
constexpr Ohms least_when_open{1000.0};

/// One measured pair.
struct MeterReading {
    int row = 0;  ///< as the sheet numbers it, else counted from 1 down the file
    Point from = 0, to = 0;
    bool closed = true;
    std::optional<Ohms> ohms;
    Mark at;
    std::optional<Volts> volts = {};     ///< in diode mode; the red probe is at `from`
    std::vector<std::size_t> with = {};  ///< devices plugged in, rising; usually none
};

struct MeterReadings {
    std::vector<MeterReading> rows;
    std::size_t blank = 0;  ///< rows of the sheet not yet measured
    Findings remarks;       ///< rows that say neither closed nor open
};

/// The point a name means: `base.plug.4`, `base.plug.D2+` in any usual spelling, `strap.a.3`.
///
/// Nothing if no point has that name; `hint` then says what was wrong and the nearest name.
struct NamedPoint {
    std::optional<Point> point;
    std::string complaint;
};
NamedPoint find_point(const Design& design, const Wiring& wiring, std::string_view name);

}  // namespace pinfold
