#include "breakout/usual_pads.hpp"

#include <algorithm>
#include <map>

namespace pinfold {
namespace {

/// Cells of a face whose rows each run on in order; nothing for another.
std::optional<std::vector<PadCell>> cells_of_face(const Connector& connector) {
    if (!connector.face || connector.face->rows.size() < 2) return std::nullopt;
    std::map<std::string, PadCell> places;
    for (std::size_t row = 0; row < connector.face->rows.size(); ++row) {
        int column = 0;
        for (const std::string& label : connector.face->rows[row]) {
            places[label] = {column++, static_cast<int>(row)};
        }
    }
    std::vector<PadCell> cells;
    std::size_t changes = 0;
    for (const Contact& contact : connector.contacts) {
        const auto place = places.find(contact.label);
        if (place == places.end()) return std::nullopt;
        if (!cells.empty() && cells.back().row != place->second.row) ++changes;
        cells.push_back(place->second);
    }
    if (changes >= connector.face->rows.size()) return std::nullopt;
    return cells;
}

}  // namespace

UsualPads usual_pads(const Design& design, const Port& port) {
    UsualPads usual;
    int rows = 1;
    std::optional<std::vector<PadCell>> face;
    if (port.ribbon) {
        const ReceptacleType& type = design.receptacle_types.at(port.ribbon->receptacle);
        rows = type.rows;
        usual.pitch_mm = rows * type.pitch.value();
    } else if (!port.connector.empty()) {
        const Connector& connector = design.connectors.at(port.connector);
        usual.pitch_mm = connector.pitch.value();
        face = cells_of_face(connector);
    }
    for (int i = 0; i < static_cast<int>(port.contacts.size()); ++i) {
        const bool by_face = face && i < static_cast<int>(face->size());
        usual.cells.push_back(by_face ? (*face)[static_cast<std::size_t>(i)]
                                      : PadCell{i / rows, i % rows});
    }
    return usual;
}

double usual_pad_width_mm(double pitch) { return 0.6 * pitch; }  // common practice
double usual_pad_length_mm(double pitch) { return std::clamp(2.4 * pitch, 0.8, 1.5); }
double usual_row_distance_mm(double pitch) {
    return std::max(pitch, usual_pad_length_mm(pitch) + 1.04);
}

}  // namespace pinfold
