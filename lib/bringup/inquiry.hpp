// An inquiry: readings held against what every plausible fault would do to the bench.
#pragma once

#include <string>
#include <vector>

#include "bringup/bench.hpp"
#include "bringup/device_probe.hpp"

namespace pinfold {

/// The bench with every measured point among the watched ones; if devices were plugged in, also
/// their contacts, and the faults of their parts among the faults. The readings must outlive it.
class Inquiry {
public:
    Inquiry(const Design& design, const Wiring& wiring, const MeterReadings& readings);

    const MeterReadings& readings;
    const DeviceMeter meter;
    const std::vector<DeviceProbe> device_probes;
    Bench bench;

    std::size_t rows() const { return readings.rows.size(); }
    /// Whether an assembly like this gives the reading at this place of the sheet.
    bool agrees(const Partition& partition, std::size_t place) const;
    std::size_t disagreements(const Partition& partition) const;
    bool agrees_with_all(const Partition& partition) const;
    /// What a reading with devices plugged in would be; only if some reading had any.
    MeterForecast forecast(const MeterReading& reading, const Partition& partition) const;
    /// Whether this very pair of points was measured, with these devices plugged in.
    bool is_measured(Point one, Point other, const std::vector<std::size_t>& with = {}) const;
    std::string name(Point point) const { return bench.wiring.name_of(point, bench.design); }

private:
    void think_of_parts();

    std::vector<std::size_t> place_;  ///< by point, in the watched points
};

/// Whether any reading was taken with a device plugged in.
bool has_devices(const MeterReadings& readings);

}  // namespace pinfold
