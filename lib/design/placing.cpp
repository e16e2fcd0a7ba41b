#include "design/placing.hpp"

#include <cmath>
#include <numbers>

namespace pinfold {

std::vector<PlacedPad> on_board(const Placing& placing) {
    const double turn = placing.angle * std::numbers::pi / 180.0;
    const double across = std::cos(turn), up = std::sin(turn);
    std::vector<PlacedPad> pads = placing.pads;
    for (PlacedPad& pad : pads) {
        const double x = placing.bottom ? -pad.x.value() : pad.x.value();
        const double y = pad.y.value();
        pad.x = placing.x + Millimetres(across * x - up * y);
        pad.y = placing.y + Millimetres(up * x + across * y);
    }
    return pads;
}

}  // namespace pinfold
