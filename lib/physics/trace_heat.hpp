// How warm a trace of a board gets from its own current.
#pragma once

#include "base/units.hpp"

namespace pinfold {

/// What a trace warms to above its board, and whether the charts reach that far.
struct TraceRise {
    Kelvins rise;
    bool in_range = true;
};

/// The rise of a trace on an outer layer of a board.
///
/// I = 0.048 dT^0.44 A^0.725, A in mil2 (a mil is 0.0254 mm). Source: IPC-2221, conductor sizing
/// charts as fitted in public calculators; the charts go to 35 A, 100 K and 10.16 mm (400 mil),
/// from memory. They come from boards in still air, without planes. The section must not be
/// nothing. tests/published/ipc_2221.cpp.
TraceRise trace_rise(Amperes current, Millimetres width, Millimetres thickness);

}  // namespace pinfold
