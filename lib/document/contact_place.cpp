#include "document/contact_place.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "document/table_words.hpp"

namespace pinfold {
namespace {

std::string in_mouth(const Port& port, const ReceptacleType& type) {
    std::string text = fmt::format("first is {} {}", port.contacts.front().label,
                                   first_contact_in_words(port.ribbon->mouth.first, type.entry));
    if (type.rows == 2) text += "; in two rows, the second contact beside the first";
    return text;
}

/// The rows as seen into a receptacle; a plug's face is its mirror image.
std::string on_face(const Face& face, Gender gender) {
    constexpr std::array two{"upper", "lower"};
    const bool is_plug = gender == Gender::plug;
    std::string text =
        is_plug ? "seen from its mating face, from the left" : "looking into it, from the left";
    for (std::size_t r = 0; r < face.rows.size(); ++r) {
        std::vector<std::string> row = face.rows[r];
        if (is_plug) std::ranges::reverse(row);
        const std::string name = face.rows.size() == 2   ? fmt::format("{} row", two[r])
                                 : face.rows.size() == 1 ? "one row"
                                                         : fmt::format("row {}", r + 1);
        text += fmt::format("{} {}: {}", r == 0 ? "," : ";", name, fmt::join(row, " "));
    }
    if (face.source.find("from memory") != std::string::npos) {
        text += " (from memory; compare with the part's drawing)";
    }
    return text;
}

}  // namespace

std::string where_of(const Design& design, PortRef ref) {
    const Port& port = design.port(ref);
    std::string text = name_of(design, ref);
    if (!port.reference.empty()) text += ", " + port.reference;
    if (!port.connector.empty()) {
        text += fmt::format(", {} {}", port.connector, name_of(port.gender));
    }
    text += fmt::format(", {}", counted(port.contacts.size(), "contact"));
    if (port.contacts.empty()) return one_line(text);
    const auto connector = design.connectors.find(port.connector);
    if (port.ribbon) {
        text += ", " + in_mouth(port, design.receptacle_types.at(port.ribbon->receptacle));
    } else if (connector != design.connectors.end() && connector->second.face) {
        text += ", " + on_face(*connector->second.face, port.gender);
    } else if (connector != design.connectors.end()) {
        text += fmt::format(
            ", {} to {} in the order of the part's drawing, seen from its mating "
            "face",
            port.contacts.front().label, port.contacts.back().label);
    } else {
        text += fmt::format(", pads {} to {} as printed on the board", port.contacts.front().label,
                            port.contacts.back().label);
    }
    return one_line(text);
}

std::string where_of_end(const Design& design, std::size_t ribbon, End end) {
    const Ribbon& cut = design.ribbons[ribbon];
    return one_line(fmt::format("{}.{}, the bare end of {}, taken out: {}, 1 at the marked edge",
                                cut.name, name_of(end), cut.name,
                                counted(static_cast<std::size_t>(cut.conductors), "conductor")));
}

}  // namespace pinfold
