// Usual pads: where the contacts of a part lie if no placing says so, and how large they are.
#pragma once

#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// Column and row of a contact, row 0 being that nearest the inside of the board.
struct PadCell {
    int column = 0;
    int row = 0;
};

/// The pads of a port by its contacts.
struct UsualPads {
    double pitch_mm = 2.54;  ///< between columns; this one of bare pads, common practice
    std::vector<PadCell> cells;
};

/// Connectors whose mating face has rows that each run on in order have as many rows of pads, one
/// behind the other; where neighbours alternate between the rows they share one row of pads. A
/// ribbon receptacle's contacts take turns over its rows.
UsualPads usual_pads(const Design& design, const Port& port);

double usual_pad_width_mm(double pitch_mm);
double usual_pad_length_mm(double pitch_mm);
double usual_row_distance_mm(double pitch_mm);

}  // namespace pinfold
