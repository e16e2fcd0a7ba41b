// The breakout of a board as JSON, schema pinfold-draw/1.
#pragma once

#include <string>

#include "breakout/breakout.hpp"

namespace pinfold {

/// Keys: `schema`, `board`, `crossings`, `crossings_bound`, `layer_changes` [names],
/// `layer_changes_proved`, `signal_vias`, `ground_vias`, `plane_runs_mm`,
/// `runs_beneath_fast_halves`, `distance_needed_mm`, `distance_placed_mm` (null if no placing was
/// drawn), `track_mm`, `gap_mm`, `via_mm`, `wires` [{`signal`, `length_mm`, `crossings`,
/// `changes_layer`}], `pairs` [{`pair`, `plus_mm`, `minus_mm`, `mismatch_mm`, `in_pair`,
/// `to_longest`}] where a meander is {`extra_mm`, `bumps`, `height_mm`, `fits`}, `pads`
/// [{`contact`, `signal`, `x_mm`, `y_mm`, `width_mm`, `height_mm`}], `tracks` [{`signal`, `layer`,
/// `points_mm` [[x, y]]}], `vias` [{`signal`, `x_mm`, `y_mm`}], `remarks`. y runs up the page.
std::string breakout_json(const Design& design, const Breakout& breakout);

}  // namespace pinfold
