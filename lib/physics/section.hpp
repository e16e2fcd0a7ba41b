// Cross-sections of lines: conductors, dielectrics and shield planes, as seen along the line.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// A straight-sided conductor (width and thickness) or a wire (diameter); x and y are its centre.
struct SectionConductor {
    std::string name;
    Millimetres x;
    Millimetres y;
    Millimetres width;
    Millimetres thickness;
    Millimetres diameter;  ///< of a wire; nothing if the conductor is straight-sided
    Mark at;

    bool round() const { return diameter.value() != 0.0; }
};

/// A rectangle of dielectric, or a round of it around x, y if it has a diameter.
struct SectionDielectric {
    Millimetres x_min, x_max, y_min, y_max;
    Millimetres x, y, diameter;
    double er = 1.0;
    double loss = 0.0;  ///< loss tangent
    Mark at;

    bool round() const { return diameter.value() != 0.0; }
};

/// A perfect shield without end at one height.
struct SectionPlane {
    Millimetres y;
    Mark at;
};

/// Two conductors that are driven against each other, as places in `Section::conductors`.
struct SectionPair {
    std::size_t plus = 0;
    std::size_t minus = 0;
    Mark at;
};

/// A cross-section, and what its conductors are used for.
struct Section {
    std::vector<SectionConductor> conductors = {};
    std::vector<SectionDielectric> dielectrics = {};
    std::vector<SectionPlane> planes = {};
    std::vector<std::size_t> ground = {};  ///< tied together and to the planes
    std::vector<SectionPair> pairs = {};
    std::optional<Hertz> frequency = {};
    Mark at = {};
};

/// The most conductors, and dielectrics, that one section may have.
constexpr std::size_t most_in_section = 500;

/// Sizes and places of any drawn section keep within these, mm.
constexpr double least_size_mm = 1e-6;
constexpr double farthest_mm = 1e4;

/// The conductors that are not ground, in their order.
std::vector<std::size_t> signals_of(const Section& section);

/// Of those the ones in no pair.
std::vector<std::size_t> singles_of(const Section& section);

/// Throws InputError with every reason why no field can be solved in the section.
///
/// Refused are sizes and places beyond `least_size_mm` and `farthest_mm`, more than
/// `most_in_section` of anything, conductors or dielectrics that overlap, conductors that touch,
/// cross the edge of a dielectric or reach a plane, wires that cross from one dielectric into
/// another, anything outside the planes, more than two planes.
void require_solvable(const Section& section);

/// Throws InputError if the roles of the conductors make no line: no reference at all, every
/// conductor ground, pairs of ground or of one conductor with itself.
void require_line(const Section& section);

}  // namespace pinfold
