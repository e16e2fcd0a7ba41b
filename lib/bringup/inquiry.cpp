#include "bringup/inquiry.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pinfold {
namespace {

std::vector<Point> points_in(const MeterReadings& readings, const DeviceMeter& meter,
                             const std::vector<DeviceProbe>& probes) {
    std::vector<Point> points;
    for (const MeterReading& row : readings.rows) points.insert(points.end(), {row.from, row.to});
    if (has_devices(readings)) {
        points.insert(points.end(), meter.contacts().begin(), meter.contacts().end());
        for (const DeviceProbe& probe : probes) points.insert(points.end(), {probe.from, probe.to});
    }
    std::ranges::sort(points);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    return points;
}

}  // namespace

bool has_devices(const MeterReadings& readings) {
    return std::ranges::any_of(readings.rows,
                               [](const MeterReading& row) { return !row.with.empty(); });
}

Inquiry::Inquiry(const Design& design, const Wiring& wiring, const MeterReadings& measured)
    : readings(measured),
      meter(design, wiring),
      device_probes(pinfold::device_probes(design, wiring, meter)),
      bench(set_up(design, wiring, points_in(measured, meter, device_probes),
                   has_devices(measured) ? meter.parts().size() : 0)),
      place_(wiring.points(), 0) {
    const std::vector<Point>& watched = bench.assembly.watched();
    for (std::size_t i = 0; i < watched.size(); ++i) place_[watched[i]] = i;
    if (has_devices(readings)) think_of_parts();
}

void Inquiry::think_of_parts() {
    for (std::size_t p = 0; p < meter.parts().size(); ++p) {
        const DevicePart& part = meter.parts()[p];
        const std::string& device = bench.design.boards[part.device].name;
        const bool is_diode = part.kind == MeterKind::diode;
        Fault fault{
            FaultKind::part,
            "device-differs",
            name(part.contacts.front()),
            fmt::format("{} itself shows another value than it should between {} and {}: "
                        "its {} is missing, broken, or of another kind",
                        device, part.signal, part.against_name, is_diode ? "diode" : "resistor"),
            fmt::format("hold the value against the document of {}, or measure another "
                        "one of its kind",
                        device),
            {}};
        fault.change.spoilt = static_cast<std::uint32_t>(p);
        bench.partitions.push_back(bench.assembly.with(fault.change));
        bench.faults.push_back(std::move(fault));
    }
}

MeterForecast Inquiry::forecast(const MeterReading& reading, const Partition& partition) const {
    const std::size_t watched = bench.assembly.watched().size();
    return meter.forecast(reading,
                          {[&](Point point) { return partition[place_[point]]; },
                           [&](std::size_t p) { return partition[watched + p] == spoilt_part; }});
}

bool Inquiry::agrees(const Partition& partition, std::size_t place) const {
    const MeterReading& row = readings.rows[place];
    if (!row.with.empty()) return forecast(row, partition).allows(row);
    return bench.is_joined(partition, place_[row.from], place_[row.to]) == row.closed;
}

std::size_t Inquiry::disagreements(const Partition& partition) const {
    std::size_t count = 0;
    for (std::size_t i = 0; i < rows(); ++i) count += agrees(partition, i) ? 0 : 1;
    return count;
}

bool Inquiry::agrees_with_all(const Partition& partition) const {
    for (std::size_t i = 0; i < rows(); ++i) {
        if (!agrees(partition, i)) return false;
    }
    return true;
}

bool Inquiry::is_measured(Point one, Point other, const std::vector<std::size_t>& with) const {
    return std::ranges::any_of(readings.rows, [&](const MeterReading& row) {
        return row.with == with &&
               ((row.from == one && row.to == other) || (row.from == other && row.to == one));
    });
}

}  // namespace pinfold
