// An inquiry: readings held against what every plausible fault would do to the bench.
#pragma once

#include <string>
#include <vector>

#include "bringup/bench.hpp"
#include "bringup/reading.hpp"

namespace pinfold {

/// The bench with every measured point among the watched ones. The readings must outlive it.
class Inquiry {
public:
    Inquiry(const Design& design, const Wiring& wiring, const MeterReadings& readings);

    const MeterReadings& readings;
    Bench bench;

    std::size_t rows() const { return readings.rows.size(); }
    /// Whether an assembly like this gives the reading at this place of the sheet.
    bool agrees(const Partition& partition, std::size_t place) const {
        return bench.is_joined(partition, from_[place], to_[place]) == readings.rows[place].closed;
    }
    std::size_t disagreements(const Partition& partition) const;
    /// Whether this very pair of points was measured.
    bool is_measured(Point one, Point other) const;
    std::string name(Point point) const { return bench.wiring.name_of(point, bench.design); }

private:
    std::vector<std::size_t> from_, to_;  ///< by row, in the watched points
};

}  // namespace pinfold
