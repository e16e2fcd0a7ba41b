#include "physics/field_mirror.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

#include "physics/field_table.hpp"

namespace pinfold::field {
namespace {

using Images = std::vector<std::size_t>;

/// Points by their place on a grid far finer than any panel.
class PointFinder {
public:
    PointFinder(const Mesh& mesh, Point low, double size)
        : low_(low), grid_(1e-7 * size), points_(mesh.points.size()) {
        for (std::size_t i = 0; i < mesh.points.size(); ++i)
            points_.find_or_add(key(mesh.points[i]), i);
    }

    std::optional<std::size_t> at(Point point) const { return points_.find(key(point)); }

private:
    /// Two times 31 bits.
    std::uint64_t key(Point point) const {
        const Point away = point - low_;
        const auto x = static_cast<std::uint64_t>(whole_steps(away.real(), grid_) + 1);
        const auto y = static_cast<std::uint64_t>(whole_steps(away.imag(), grid_) + 1);
        return 1ULL << 62 | x << 31 | y;
    }

    Point low_;
    double grid_;
    KeyTable points_;
};

/// Whether two points see the same media, the second in a mirror that exchanges left and right
/// (or up and down).
bool same_media(const Outline& outline, const Mesh& mesh, std::size_t one, std::size_t other,
                bool sideways) {
    const Stretch& a = outline.stretches[mesh.stretch_of[one]];
    const Stretch& b = outline.stretches[mesh.stretch_of[other]];
    if (a.metal() != b.metal() || a.round() != b.round()) return false;
    const bool upright = !a.round() && std::abs(mesh.normals[one].real()) > 0.5;
    const bool turns = !a.round() && upright == sideways;
    return turns ? a.before == b.behind && a.behind == b.before
                 : a.before == b.before && a.behind == b.behind;
}

std::optional<Images> images_in(const Outline& outline, const Mesh& mesh, const PointFinder& finder,
                                double centre, bool sideways) {
    Images images;
    images.reserve(mesh.points.size());
    for (std::size_t i = 0; i < mesh.points.size(); ++i) {
        const Point p = mesh.points[i];
        const Point seen = sideways ? Point(2.0 * centre - p.real(), p.imag())
                                    : Point(p.real(), 2.0 * centre - p.imag());
        const std::optional<std::size_t> found = finder.at(seen);
        if (!found || !same_media(outline, mesh, i, *found, sideways)) return std::nullopt;
        images.push_back(*found);
    }
    for (std::size_t i = 0; i < images.size(); ++i) {
        if (images[images[i]] != i) return std::nullopt;
    }
    return images;
}

/// The sets of things with such images.
Sets sets_of(std::vector<Images> images) {
    Sets sets{std::move(images), {}, {}, {}, {}};
    const std::size_t count = sets.images.front().size();
    sets.set_of.resize(count);
    sets.way_to.resize(count);
    for (std::size_t thing = 0; thing < count; ++thing) {
        const auto earlier = [&](const Images& way) { return way[thing] < thing; };
        if (std::ranges::any_of(sets.images, earlier)) continue;
        double size = 0.0;
        for (std::size_t way = sets.images.size(); way-- > 0;) {
            const std::size_t image = sets.images[way][thing];
            sets.set_of[image] = sets.chosen.size();
            sets.way_to[image] = way;
            size += image == thing ? 1.0 : 0.0;
        }
        sets.sizes.push_back(static_cast<double>(sets.images.size()) / size);
        sets.chosen.push_back(thing);
    }
    return sets;
}

/// Conductors go where any of their points go.
std::vector<Images> conductor_images(const Outline& outline, const Mesh& mesh,
                                     const std::vector<Images>& of_points) {
    std::vector<Images> images(of_points.size(), Images(outline.conductors));
    const auto conductor = [&](std::size_t point) {
        return static_cast<std::size_t>(outline.stretches[mesh.stretch_of[point]].conductor);
    };
    for (std::size_t way = 0; way < of_points.size(); ++way) {
        for (std::size_t point = 0; point < mesh.metal_points; ++point) {
            images[way][conductor(point)] = conductor(of_points[way][point]);
        }
    }
    return images;
}

/// A set with a thing that is its own image in an odd mirror has nothing.
Places places_of(const Sets& sets, const std::vector<double>& signs) {
    Places places;
    for (std::size_t thing : sets.chosen) {
        bool bears = true;
        for (std::size_t way = 0; way < signs.size(); ++way) {
            if (sets.images[way][thing] == thing && signs[way] < 0.0) bears = false;
        }
        places.of_set.push_back(bears ? places.count++ : -1);
    }
    return places;
}

}  // namespace

bool Part::even() const {
    return std::ranges::all_of(signs, [](double s) { return s > 0.0; });
}

Mirrors mirrors_of(const Outline& outline, const Mesh& mesh) {
    const std::size_t count = mesh.points.size();
    std::vector<Images> images(1, Images(count));
    for (std::size_t i = 0; i < count; ++i) images[0][i] = i;

    const auto x = [](Point p) { return p.real(); };
    const auto y = [](Point p) { return p.imag(); };
    const auto [left, right] = std::ranges::minmax(mesh.points, {}, x);
    const auto [low, high] = std::ranges::minmax(mesh.points, {}, y);
    const Point corner(left.real(), low.imag());
    const double size = std::max(right.real() - left.real(), high.imag() - low.imag());
    const PointFinder finder(mesh, corner, std::max(size, outline.size));
    const auto add = [&](double centre, bool sideways) {
        const auto found = images_in(outline, mesh, finder, centre, sideways);
        if (!found) return;
        const std::size_t before = images.size();
        for (std::size_t way = 0; way < before; ++way) {
            Images both(count);
            for (std::size_t i = 0; i < count; ++i) both[i] = (*found)[images[way][i]];
            images.push_back(std::move(both));
        }
    };
    add(0.5 * (left.real() + right.real()), true);
    if (outline.space.planes == 0) add(0.5 * (low.imag() + high.imag()), false);
    if (outline.space.planes == 2) add(0.5 * outline.space.height, false);
    Sets conductors = sets_of(conductor_images(outline, mesh, images));
    return {sets_of(std::move(images)), std::move(conductors)};
}

std::vector<Part> parts_of(const Mirrors& mirrors, const Mesh& mesh) {
    const std::size_t ways = mirrors.points.images.size();
    std::vector<Part> parts;
    for (std::size_t kind = 0; kind < ways; ++kind) {
        Part part;
        for (std::size_t way = 0; way < ways; ++way) {
            // Way and kind are sets of mirrors: odd in each that both hold.
            const std::size_t both = way & kind;
            part.signs.push_back(both == 1 || both == 2 ? -1.0 : 1.0);
        }
        part.conductors = places_of(mirrors.conductors, part.signs);
        if (part.conductors.count == 0) continue;
        part.points = places_of(mirrors.points, part.signs);
        for (std::size_t set = 0; set < mirrors.points.chosen.size(); ++set) {
            const bool metal = mirrors.points.chosen[set] < mesh.metal_points;
            part.metal += metal && part.points.of_set[set] >= 0 ? 1 : 0;
        }
        parts.push_back(std::move(part));
    }
    return parts;
}

}  // namespace pinfold::field
