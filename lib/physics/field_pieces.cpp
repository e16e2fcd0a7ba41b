#include "physics/field_pieces.hpp"

#include <algorithm>
#include <cmath>

namespace pinfold::field {
namespace {

/// Lengths closer than this are the same: typed decimals differ in their last bits.
constexpr double finest_mm = 1e-9;

double snapped(double mm) { return std::round(mm / finest_mm) * finest_mm; }

Pieces frame_of(const Section& section) {
    Pieces pieces;
    pieces.space.planes = static_cast<int>(section.planes.size());
    pieces.left = section.conductors.front().x.value();
    pieces.floor = section.conductors.front().y.value();
    if (section.planes.empty()) return pieces;
    const auto [low, high] = std::ranges::minmax(section.planes, {}, &SectionPlane::y);
    pieces.floor = low.y.value();
    pieces.space.height = snapped(high.y.value() - low.y.value());
    pieces.turned = section.planes.size() == 1 && section.conductors.front().y < low.y;
    return pieces;
}

Box box_of(const SectionConductor& conductor, const Pieces& pieces) {
    const Millimetres half = 0.5 * conductor.width;
    const Millimetres up = 0.5 * conductor.thickness;
    const double one = pieces.level(conductor.y - up);
    const double other = pieces.level(conductor.y + up);
    return {pieces.along(conductor.x - half), pieces.along(conductor.x + half),
            std::min(one, other), std::max(one, other)};
}

bool holds(double least, double most, double value, int towards) {
    return towards > 0 ? least <= value && value < most : least < value && value <= most;
}

}  // namespace

double Pieces::along(Millimetres x) const { return snapped(x.value() - left); }

double Pieces::level(Millimetres y) const {
    return snapped(turned ? floor - y.value() : y.value() - floor);
}

Pieces pieces_of(const Section& section) {
    Pieces pieces = frame_of(section);
    for (std::size_t i = 0; i < section.conductors.size(); ++i) {
        const SectionConductor& conductor = section.conductors[i];
        const Filling metal{static_cast<int>(i), {}};
        if (conductor.round()) {
            const Point centre(pieces.along(conductor.x), pieces.level(conductor.y));
            pieces.rounds.push_back({centre, conductor.diameter.value() / 2.0, metal});
        } else {
            pieces.boxes.push_back({box_of(conductor, pieces), metal});
        }
    }
    for (const SectionDielectric& dielectric : section.dielectrics) {
        const Filling filling{-1, {dielectric.er, dielectric.er * dielectric.loss}};
        if (dielectric.round()) {
            const Point centre(pieces.along(dielectric.x), pieces.level(dielectric.y));
            pieces.rounds.push_back({centre, dielectric.diameter.value() / 2.0, filling});
        } else {
            const double one = pieces.level(dielectric.y_min);
            const double other = pieces.level(dielectric.y_max);
            pieces.boxes.push_back({{pieces.along(dielectric.x_min), pieces.along(dielectric.x_max),
                                     std::min(one, other), std::max(one, other)},
                                    filling});
        }
    }
    return pieces;
}

Map::Map(const Pieces& pieces) : rounds_(pieces.rounds) {
    for (const FilledBox& box : pieces.boxes) {
        Row& row = box.filling.conductor >= 0 ? metal_ : dielectric_;
        row.boxes.push_back(box);
        row.widest = std::max(row.widest, box.box.x_max - box.box.x_min);
    }
    const auto left = [](const FilledBox& box) { return box.box.x_min; };
    std::ranges::stable_sort(metal_.boxes, {}, left);
    std::ranges::stable_sort(dielectric_.boxes, {}, left);
}

const FilledBox* Map::Row::at(Point point, int right, int up) const {
    const auto left = [](const FilledBox& box) { return box.box.x_min; };
    auto box = std::ranges::lower_bound(boxes, point.real() - widest - finest_mm, {}, left);
    for (; box != boxes.end() && box->box.x_min <= point.real(); ++box) {
        if (holds(box->box.x_min, box->box.x_max, point.real(), right) &&
            holds(box->box.y_min, box->box.y_max, point.imag(), up)) {
            return &*box;
        }
    }
    return nullptr;
}

Filling Map::at(Point point, int right, int up) const {
    if (const FilledBox* box = metal_.at(point, right, up)) return box->filling;
    if (const FilledBox* box = dielectric_.at(point, right, up)) return box->filling;
    for (const FilledRound& round : rounds_) {
        if (round.filling.conductor < 0 && std::abs(point - round.centre) < round.radius) {
            return round.filling;
        }
    }
    return {};
}

Filling Map::around(const FilledRound& circle) const {
    Filling found;
    if (const FilledBox* box = dielectric_.at(circle.centre, 1, 1)) found = box->filling;
    if (circle.filling.conductor < 0) return found;
    for (const FilledRound& round : rounds_) {
        if (round.filling.conductor >= 0) continue;
        if (std::abs(circle.centre - round.centre) < round.radius) found = round.filling;
    }
    return found;
}

}  // namespace pinfold::field
