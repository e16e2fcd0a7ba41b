// Readings with one device plugged in: the values its pull-ups and diodes should show.
#pragma once

#include <string>
#include <vector>

#include "bringup/device_part.hpp"

namespace pinfold {

/// One reading through the assembly into the device at its far end, red probe at `from`.
struct DeviceProbe {
    std::size_t number = 0;  ///< goes on behind the readings of the bare assembly
    std::size_t device = 0;  ///< in the design's boards: plugged in alone
    Point from = 0, to = 0;
    MeterForecast expected;
    std::string from_signal, to_signal;
    std::string why;
    std::string source;
    bool is_further = false;  ///< not asked for while all is well

    /// The reading, not yet taken.
    MeterReading blank() const;
};

/// For every signal of a promise that its interface's pin map gives a value for: a reading at the
/// other end of the assembly, of a resistance rather than a diode. What is left is `further`: it
/// tells a broken contact from a device that is made otherwise.
///
/// They are for after the bare assembly has passed. A value that another part blurs is left out.
std::vector<DeviceProbe> device_probes(const Design& design, const Wiring& wiring,
                                       const DeviceMeter& meter);

}  // namespace pinfold
