// Reading what was measured: CSV sheets as people fill them in.
#pragma once

#include <memory>

#include "bringup/reading.hpp"

namespace pinfold {

/// Reads meter readings of a design's assembly.
///
/// Commas, semicolons or tabs; with a head (no, from, to, expect, reading, with in any order) or
/// without (`point,point,reading`, or the columns of the sheet). Lines that begin with # are
/// comments. A reading is closed or open in the usual words, ohms with or without unit, OL, or
/// blank; with devices plugged in also volts, red probe at `from`. Throws InputError with every
/// fault, each with line and column; a resistance of bare copper between the thresholds is a
/// remark and is left out.
MeterReadings read_readings(std::shared_ptr<const Source> source, const Design& design,
                            const Wiring& wiring);

}  // namespace pinfold
