// An example with its meter plan, and what the plan's readings are on a faulty assembly.
#pragma once

#include <string>

#include "bringup/diagnosis.hpp"
#include "bringup/probe_plan.hpp"
#include "design/read.hpp"
#include "support.hpp"

namespace pinfold {

/// A design with its plan.
struct Planned {
    explicit Planned(const std::string& folder)
        : design(read_design(repository() / "examples" / folder / "design.yaml", library)) {}
    explicit Planned(std::shared_ptr<const Source> text)
        : design(read_design(std::move(text), repository() / "examples/lid-link", library)) {}

    Library library = shipped_library();
    Design design;
    Wiring wiring = trace(design);
    Bench bench = set_up(design, wiring);
    ProbePlan plan = probe_plan(bench);

    Point point(const std::string& name) const {
        return find_point(design, wiring, name).point.value();
    }
    MeterReading reading(int row, std::size_t from, std::size_t to, bool closed) const {
        MeterReading reading;
        reading.row = row;
        reading.from = bench.sites.all()[from].point;
        reading.to = bench.sites.all()[to].point;
        reading.closed = closed;
        return reading;
    }
};

/// Every reading of the plan, as an assembly like this gives it.
inline MeterReadings measured(const Bench& bench, const ProbePlan& plan,
                              const Partition& partition) {
    MeterReadings readings;
    for (const Probe& probe : plan.probes) {
        MeterReading reading;
        reading.row = static_cast<int>(probe.number);
        reading.from = bench.sites.all()[probe.from].point;
        reading.to = bench.sites.all()[probe.to].point;
        reading.closed = partition[probe.from] == partition[probe.to];
        readings.rows.push_back(reading);
    }
    return readings;
}

}  // namespace pinfold
