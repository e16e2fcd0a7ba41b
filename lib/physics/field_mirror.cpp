#include "physics/field_mirror.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <unordered_map>

namespace pinfold::field {
namespace {

using Images = std::vector<std::size_t>;

/// Points by their place on a grid far finer than any panel.
class PointFinder {
public:
    PointFinder(const Mesh& mesh, double grid) : mesh_(mesh), grid_(grid) {
        places_.reserve(mesh.points.size());
        for (std::size_t i = 0; i < mesh.points.size(); ++i)
            places_.emplace(key(mesh.points[i]), i);
    }

    std::optional<std::size_t> at(Point point) const {
        const auto found = places_.find(key(point));
        if (found == places_.end()) return std::nullopt;
        return found->second;
    }

private:
    std::uint64_t key(Point point) const {
        const auto x = static_cast<std::uint64_t>(std::llround(point.real() / grid_));
        const auto y = static_cast<std::uint64_t>(std::llround(point.imag() / grid_));
        return x * 0x9E3779B97F4A7C15U + y;
    }

    const Mesh& mesh_;
    double grid_;
    std::unordered_map<std::uint64_t, std::size_t> places_;
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

}  // namespace

bool Part::even() const {
    return std::ranges::all_of(signs, [](double s) { return s > 0.0; });
}

Mirrors mirrors_of(const Outline& outline, const Mesh& mesh) {
    const std::size_t count = mesh.points.size();
    Mirrors mirrors;
    mirrors.images.emplace_back(count);
    for (std::size_t i = 0; i < count; ++i) mirrors.images[0][i] = i;

    const auto x = [](Point p) { return p.real(); };
    const auto y = [](Point p) { return p.imag(); };
    const auto [left, right] = std::ranges::minmax(mesh.points, {}, x);
    const auto [low, high] = std::ranges::minmax(mesh.points, {}, y);
    const PointFinder finder(mesh, 1e-7 * std::max(right.real() - left.real(), outline.size));
    const auto add = [&](double centre, bool sideways) {
        auto images = images_in(outline, mesh, finder, centre, sideways);
        if (!images) return;
        const std::size_t before = mirrors.images.size();
        for (std::size_t way = 0; way < before; ++way) {
            Images both(count);
            for (std::size_t i = 0; i < count; ++i) both[i] = (*images)[mirrors.images[way][i]];
            mirrors.images.push_back(std::move(both));
        }
    };
    add(0.5 * (left.real() + right.real()), true);
    if (outline.space.planes == 0) add(0.5 * (low.imag() + high.imag()), false);
    if (outline.space.planes == 2) add(0.5 * outline.space.height, false);

    for (std::size_t i = 0; i < count; ++i) {
        const bool first = std::ranges::all_of(
            mirrors.images, [&](const Images& images) { return images[i] >= i; });
        if (first) mirrors.chosen.push_back(i);
    }
    return mirrors;
}

std::vector<Part> parts_of(const Mirrors& mirrors) {
    const std::size_t ways = mirrors.images.size();
    std::vector<Part> parts;
    for (std::size_t kind = 0; kind < ways; ++kind) {
        Part part;
        for (std::size_t way = 0; way < ways; ++way) {
            // Way and kind are sets of mirrors: odd in each that both hold.
            const std::size_t both = way & kind;
            part.signs.push_back(both == 1 || both == 2 ? -1.0 : 1.0);
        }
        for (std::size_t point : mirrors.chosen) {
            bool bears = true;
            for (std::size_t way = 0; way < ways; ++way) {
                if (mirrors.images[way][point] == point && part.signs[way] < 0.0) bears = false;
            }
            if (bears) part.points.push_back(point);
        }
        parts.push_back(std::move(part));
    }
    return parts;
}

}  // namespace pinfold::field
