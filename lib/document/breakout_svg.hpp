// Drawing of a breakout at true scale: pads, tracks on both layers, vias, pairs and a scale bar.
#pragma once

#include "breakout/breakout.hpp"

namespace pinfold {

/// An SVG document; one user unit is one millimetre of the board. Printed, or put into another
/// document, it is `scale` times as large as the board; a browser shows it as large as its window.
///
/// Top tracks are solid, runs in the plane dashed, vias rings. Halves of pairs have a light core
/// and a colour of their own, so that they are told apart in black and white too.
std::string breakout_svg(const Design& design, const Breakout& breakout, double scale = 1.0);

}  // namespace pinfold
