// Sections for tests, in few words.
#pragma once

#include "physics/field.hpp"

namespace pinfold {

inline SectionConductor strip(double x, double y, double width, double thickness) {
    SectionConductor c;
    c.x = Millimetres(x), c.y = Millimetres(y);
    c.width = Millimetres(width), c.thickness = Millimetres(thickness);
    return c;
}

inline SectionConductor wire(double x, double y, double diameter) {
    SectionConductor c;
    c.x = Millimetres(x), c.y = Millimetres(y), c.diameter = Millimetres(diameter);
    return c;
}

inline SectionDielectric film(double x_min, double x_max, double y_min, double y_max, double er,
                              double loss = 0.0) {
    SectionDielectric d;
    d.x_min = Millimetres(x_min), d.x_max = Millimetres(x_max);
    d.y_min = Millimetres(y_min), d.y_max = Millimetres(y_max);
    d.er = er, d.loss = loss;
    return d;
}

inline SectionDielectric jacket(double x, double y, double diameter, double er) {
    SectionDielectric d;
    d.x = Millimetres(x), d.y = Millimetres(y), d.diameter = Millimetres(diameter);
    d.er = er;
    return d;
}

inline SectionPlane plane(double y) { return {Millimetres(y), {}}; }

/// Equal conductors side by side, 0.30 x 0.035 mm at 0.5 mm.
inline Section ribbon(int conductors) {
    Section section;
    for (int i = 0; i < conductors; ++i) {
        section.conductors.push_back(strip(0.5 * i, 0.0, 0.30, 0.035));
    }
    return section;
}

/// The same between two films of 0.10 mm that end one pitch beyond the outer conductors.
inline Section filmed_ribbon(int conductors, double er, double loss = 0.0) {
    Section section = ribbon(conductors);
    section.dielectrics = {film(-0.5, 0.5 * conductors, -0.1175, 0.1175, er, loss)};
    return section;
}

}  // namespace pinfold
