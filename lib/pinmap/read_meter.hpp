// Reading what a meter shows on the signals of a device, from an interface's pin map.
#pragma once

#include "base/fields.hpp"
#include "pinmap/interface.hpp"

namespace pinfold {

/// The signal a pin map names, exactly as it is written there; nothing, with a finding and the
/// nearest name, if there is none. An empty name is somebody else's finding.
std::optional<std::size_t> signal_written(const Interface& interface, const std::string& name,
                                          const Mark& at, Findings& findings);

/// The windows under `meter`; the interface's signals and ends must have been read.
std::vector<MeterWindow> read_meter(const std::vector<Yaml>& items, const Interface& interface,
                                    Findings& findings);

}  // namespace pinfold
