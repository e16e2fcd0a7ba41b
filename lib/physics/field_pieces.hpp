// The pieces of a section: boxes and rounds of metal and dielectric, and what fills each place.
#pragma once

#include <vector>

#include "physics/field_outline.hpp"

namespace pinfold::field {

struct Box {
    double x_min, x_max, y_min, y_max;
};

/// What is at a point: metal of a conductor, or a medium.
struct Filling {
    int conductor = -1;
    Medium medium;
    friend bool operator==(const Filling&, const Filling&) = default;
};

struct FilledBox {
    Box box;
    Filling filling;
};

struct FilledRound {
    Point centre;
    double radius;
    Filling filling;
};

/// The section in a frame of its own, far from which no digits are lost; lengths rounded so that
/// what touches is seen to.
struct Pieces {
    std::vector<FilledBox> boxes;
    std::vector<FilledRound> rounds;
    double left = 0.0;    ///< x of the first conductor's middle, which lies at 0 here
    double floor = 0.0;   ///< y of the lower plane, or of that middle
    bool turned = false;  ///< the section hangs below its only plane
    Space space;

    double along(Millimetres x) const;
    double level(Millimetres y) const;
};

Pieces pieces_of(const Section& section);

/// Tells what fills a place; metal wins over the dielectric that surrounds it.
class Map {
public:
    explicit Map(const Pieces& pieces);

    /// What fills the quarter of a point towards +-x, +-y.
    Filling at(Point point, int right, int up) const;
    /// What surrounds a circle; the circle itself is not asked.
    Filling around(const FilledRound& circle) const;

private:
    /// From left to right, so that those at a point are found without asking all of them.
    struct Row {
        std::vector<FilledBox> boxes;
        double widest = 0.0;

        const FilledBox* at(Point point, int right, int up) const;
    };

    Row metal_, dielectric_;
    std::vector<FilledRound> rounds_;
};

}  // namespace pinfold::field
