// The breakout of a board as JSON, schema pinfold-draw/1.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "breakout/breakout.hpp"

namespace pinfold {

/// Keys: `schema`; those of `breakouts_json`; `track_mm`, `gap_mm`, `via_mm`, `hole_mm`; `wires`
/// [{`signal`, `length_mm` (as drawn), `meander_mm` (the part of it that meanders add),
/// `crossings`, `changes_layer`}]; `pairs` [{`pair`, `plus_mm`, `minus_mm`, `mismatch_mm` (all as
/// drawn), `mismatch_without_meanders_mm`, `in_pair`, `to_longest`}] where a meander is
/// {`extra_mm`, `bumps`, `height_mm`, `fits` (and is drawn)}, null for a slow pair; `pads`
/// [{`contact`, `signal`, `x_mm`, `y_mm`, `width_mm`, `height_mm`, `hole_mm` (0: a surface pad)}];
/// `tracks` [{`signal`, `layer`, `points_mm`
/// [[x, y]]}]; `vias` [{`signal`, `x_mm`, `y_mm`}]; `remarks`. y runs up the page.
std::string breakout_json(const Design& design, const Breakout& breakout);

/// What each board that takes a ribbon needs: `board`, `crossings`, `crossings_bound`,
/// `exits_under` (contacts of a back row that leave it on the bottom layer), `exits_proved` (no
/// choice crosses less, or as little with fewer of them), `layer_changes` [names],
/// `layer_changes_proved`, `signal_vias`, `ground_vias`, `plane_runs_mm`,
/// `runs_beneath_fast_halves`, `distance_needed_mm`, `distance_placed_mm` (null if no placing was
/// drawn), `mismatch_in_pair_mm` (the worst, as drawn), `mismatch_between_pairs_mm` (null if there
/// is but one fast pair); or `board` and `not_drawn`, the reason.
nlohmann::ordered_json breakouts_json(const Design& design);

}  // namespace pinfold
