// What is left of a meter plan once some of it has been measured.
#pragma once

#include "bringup/diagnosis.hpp"
#include "bringup/probe_plan.hpp"

namespace pinfold {

/// The plan without the readings taken; if a fault has shown, the readings that tell its causes
/// apart stand alone. Numbers stay those of the plan, further readings go on behind them.
ProbePlan remaining(const Bench& bench, ProbePlan plan, const MeterReadings& readings,
                    const Diagnosis& diagnosis);

}  // namespace pinfold
