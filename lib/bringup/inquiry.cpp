#include "bringup/inquiry.hpp"

#include <algorithm>

namespace pinfold {
namespace {

std::vector<Point> points_in(const MeterReadings& readings) {
    std::vector<Point> points;
    for (const MeterReading& row : readings.rows) points.insert(points.end(), {row.from, row.to});
    std::ranges::sort(points);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    return points;
}

}  // namespace

Inquiry::Inquiry(const Design& design, const Wiring& wiring, const MeterReadings& measured)
    : readings(measured), bench(set_up(design, wiring, points_in(measured))) {
    const std::vector<Point>& watched = bench.assembly.watched();
    std::vector<std::size_t> place(wiring.points(), 0);
    for (std::size_t i = 0; i < watched.size(); ++i) place[watched[i]] = i;
    for (const MeterReading& row : readings.rows) {
        from_.push_back(place[row.from]);
        to_.push_back(place[row.to]);
    }
}

std::size_t Inquiry::disagreements(const Partition& partition) const {
    std::size_t count = 0;
    for (std::size_t i = 0; i < rows(); ++i) count += agrees(partition, i) ? 0 : 1;
    return count;
}

bool Inquiry::is_measured(Point one, Point other) const {
    return std::ranges::any_of(readings.rows, [&](const MeterReading& row) {
        return (row.from == one && row.to == other) || (row.from == other && row.to == one);
    });
}

}  // namespace pinfold
