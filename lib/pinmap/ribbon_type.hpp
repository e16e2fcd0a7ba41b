// Ribbon types and the receptacles that take them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// Flat conductors with bared ends, or round wires in crimped sockets.
enum class RibbonKind { flat, round };

std::string_view name_of(RibbonKind kind);

struct Range {
    int least = 1;
    int most = 1;
    bool holds(int number) const { return number >= least && number <= most; }
};

struct LengthRange {
    Millimetres least, most;
    bool holds(Millimetres length) const { return length >= least && length <= most; }
};

/// The insulation on each side of the conductors.
struct Film {
    std::optional<Millimetres> thickness;
    std::optional<double> permittivity;
    std::optional<double> loss_tangent;
    std::string source;
};

/// A ribbon as it is sold, without its length.
struct RibbonType {
    std::string id;  ///< the file's name: `ffc-0.50`
    std::string name;
    std::string source;
    RibbonKind kind = RibbonKind::flat;
    Millimetres pitch;
    Range conductors;
    SquareMillimetres section;             ///< of the metal of one conductor
    std::optional<Millimetres> width;      ///< flat: of one conductor
    std::optional<Millimetres> thickness;  ///< flat: of one conductor
    std::optional<Film> film;
    std::optional<Millimetres> margin;         ///< centre of the last conductor to the edge
    std::optional<Millimetres> end_thickness;  ///< flat: at the stiffened end
    std::optional<Amperes> current;            ///< per conductor
    std::optional<Millimetres> bend_radius;
    std::vector<Millimetres> stock_lengths;

    /// Overall width of a ribbon of `count` conductors.
    Millimetres overall_width(int count) const;
};

/// Which face of a ribbon the contacts touch: the one towards the board (bottom), the other (top),
/// or whichever shows copper (both).
enum class ContactSide { top, bottom, both };
enum class Entry { right_angle, vertical };

std::string_view name_of(ContactSide side);
std::string_view name_of(Entry entry);

/// A part that takes a ribbon end.
///
/// For a vertical part the side is `bottom` by definition: look into its mouth with its contacts
/// below.
struct ReceptacleType {
    std::string id;  ///< the file's name: `ffc-0.50-bottom`
    std::string name;
    std::string source;
    RibbonKind takes = RibbonKind::flat;
    Millimetres pitch;  ///< of the ribbon
    Range positions;
    int rows = 1;
    ContactSide side = ContactSide::bottom;
    Entry entry = Entry::right_angle;
    std::optional<LengthRange> end_thickness;
    std::optional<Amperes> current;     ///< per contact
    std::optional<Percent> all_loaded;  ///< share of it left when every contact carries current
    std::optional<Ohms> contact_resistance;
    std::optional<Henries> contact_inductance;  ///< of one contact
    std::optional<Farads> contact_capacitance;  ///< of one contact to ground
    std::optional<int> mating_cycles;
};

}  // namespace pinfold
