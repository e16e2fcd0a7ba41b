#include "physics/field_influence.hpp"

#include <cmath>
#include <cstdlib>
#include <map>
#include <span>
#include <tuple>

namespace pinfold::field {
namespace {

using Eigen::Index;

/// Points of a panel that stand side by side in the equations too.
struct Run {
    std::size_t panel = 0;
    Index first = 0;  ///< of the panel's points
    Index count = 0;
    Index row = 0;
};

/// Where a part's equations hold.
std::vector<Run> runs_of(const Mesh& mesh, const Sets& points, const Part& part, Index shift) {
    std::vector<Run> runs;
    std::size_t panel = 0;
    for (std::size_t set = 0; set < points.chosen.size(); ++set) {
        const std::size_t point = points.chosen[set];
        const Index place = part.points.of_set[set];
        if (place < 0) continue;
        while (panel + 1 < mesh.panels.size() && mesh.panels[panel + 1].first <= point) ++panel;
        const auto own = static_cast<Index>(point - mesh.panels[panel].first);
        const bool goes_on = !runs.empty() && runs.back().panel == panel &&
                             runs.back().first + runs.back().count == own;
        if (goes_on) {
            ++runs.back().count;
        } else {
            runs.push_back({panel, own, 1, place < part.metal ? place : place + shift});
        }
    }
    return runs;
}

/// How many different blocks a panel takes part in, as a rule.
constexpr std::size_t blocks_for_panel = 15;

constexpr auto unknown = static_cast<std::uint32_t>(-1);
constexpr auto nothing = static_cast<std::uint32_t>(-2);

/// Steps that typed decimals, and halves of halves of them, are whole numbers of: so what stands at
/// equal pitch is seen to.
double grid_of(const Outline& outline) {
    double grid = 4e-9;
    while (grid > 1e-8 * outline.size) grid *= 0.5;
    return grid;
}

/// 11 and 12 bits of the kinds and 40 of the distance; nothing if that does not hold them.
std::uint64_t key_of(std::uint64_t to, std::uint64_t from, std::int64_t apart) {
    if (to >= 2048 || from >= 4096 || std::abs(apart) >= (1LL << 38)) return 0;
    return to << 52 | from << 40 | static_cast<std::uint64_t>(apart + (1LL << 38));
}

}  // namespace

Influence::Influence(const Outline& outline, const Mesh& mesh)
    : outline_(outline),
      mesh_(mesh),
      // A tenth, at most, of what the mesh errs by, which goes as the square of its tolerance:
      // measured on ribbons of 20.
      quadrature_(1e-2 * mesh.tolerance * mesh.tolerance),
      firsts_(blocks_for_panel * mesh.panels.size()),
      places_(mesh.panels.size() * mesh.panels.size(), unknown) {
    constexpr std::size_t common = 8;  // numbers of a block
    blocks_.reserve(common * blocks_for_panel * mesh.panels.size());
    find_shifts();
}

void Influence::find_shifts() {
    const double grid = grid_of(outline_);
    const auto steps = [&](double mm) { return whole_steps(mm, grid); };
    using Length = std::int64_t;
    std::map<std::tuple<Length, Length, Length, Length, double, double, int, bool>, std::uint64_t>
        kinds;
    for (std::size_t p = 0; p < mesh_.panels.size(); ++p) {
        const Panel& panel = mesh_.panels[p];
        const auto kind = [&](double from, double to) {
            const auto shape = std::tuple(steps(panel.half.real()), steps(panel.half.imag()),
                                          steps(panel.middle.imag()), steps(panel.radius), from, to,
                                          panel.order, p < mesh_.metal_panels);
            return kinds.emplace(shape, kinds.size() + 1).first->second;
        };
        const double from = panel.measure.sharp_from;
        const double to = panel.measure.sharp_to;
        const bool level = panel.half.imag() == 0.0;
        const std::uint64_t own = kind(from, to);
        const std::uint64_t mirrored = panel.round()         ? 0
                                       : level && from != to ? kind(to, from)
                                                             : own;
        shifts_.push_back({own, mirrored, steps(panel.middle.real())});
    }
}

void Influence::add_to(Eigen::Ref<Eigen::MatrixXd> matrix, const Mirrors& mirrors, const Part& part,
                       Index shift) {
    struct Column {
        double* out;
        double sign;
    };
    const std::vector<Run> runs = runs_of(mesh_, mirrors.points, part, shift);
    std::vector<Column> columns;
    for (std::size_t source = 0; source < mesh_.panels.size(); ++source) {
        const Panel& from = mesh_.panels[source];
        columns.clear();
        for (std::size_t point = from.first; point < from.end(); ++point) {
            const Index place = part.points.of_set[mirrors.points.set_of[point]];
            columns.push_back({nullptr, part.sign(mirrors.points, point)});
            if (place < 0) continue;
            columns.back().out = matrix.col(place < part.metal ? place : place + shift).data();
        }
        for (const Run& run : runs) {
            const double* block = block_of(run.panel, source);
            if (block == nullptr) continue;
            block += run.first;
            for (const Column& column : columns) {
                if (column.out != nullptr) {
                    double* const out = column.out + run.row;
                    for (Index i = 0; i < run.count; ++i) out[i] += column.sign * block[i];
                }
                block += mesh_.panels[run.panel].order;
            }
        }
    }
}

/// A column for each point of the source; nothing if all of it is nothing.
const double* Influence::block_of(std::size_t target, std::size_t source) {
    std::uint32_t& place = places_[target * mesh_.panels.size() + source];
    if (place == unknown) place = place_of(target, source);
    return place == nothing ? nullptr : blocks_.data() + place;
}

std::uint32_t Influence::place_of(std::size_t target, std::size_t source) {
    if (target >= mesh_.metal_panels && in_line(mesh_.panels[source], mesh_.panels[target])) {
        return nothing;
    }
    const Shift& to = shifts_[target];
    const Shift& from = shifts_[source];
    const std::int64_t apart = to.x - from.x;
    const std::uint64_t shared = key_of(to.kind, from.kind, apart);
    const std::uint64_t key = shared != 0 ? shared : (1ULL << 63 | target << 24 | source);
    const auto size = static_cast<std::size_t>(mesh_.panels[target].order) *
                      static_cast<std::size_t>(mesh_.panels[source].order);
    const auto [first, is_new] = firsts_.find_or_add(key, blocks_.size());
    if (!is_new) return static_cast<std::uint32_t>(first);
    blocks_.resize(first + size);
    double* const values = blocks_.data() + first;
    const bool seen = shared != 0 && to.mirrored != 0 && from.mirrored != 0;
    const auto other =
        seen ? firsts_.find(key_of(to.mirrored, from.mirrored, -apart)) : std::nullopt;
    if (other && *other != first) {
        fill_mirrored(target, source, blocks_.data() + *other, values);
    } else {
        fill(target, source, values);
    }
    return static_cast<std::uint32_t>(first);
}

/// Points of level panels stand the other way round; the normal of an upright one, too.
void Influence::fill_mirrored(std::size_t target, std::size_t source, const double* seen,
                              double* values) {
    const Panel& to = mesh_.panels[target];
    const Panel& from = mesh_.panels[source];
    const auto rows = static_cast<std::size_t>(to.order);
    const auto columns = static_cast<std::size_t>(from.order);
    const bool to_level = to.half.imag() == 0.0;
    const bool from_level = from.half.imag() == 0.0;
    const double sign = target < mesh_.metal_panels || to_level ? 1.0 : -1.0;
    for (std::size_t j = 0; j < columns; ++j) {
        const double* const column = seen + (from_level ? columns - 1 - j : j) * rows;
        for (std::size_t i = 0; i < rows; ++i) {
            values[j * rows + i] = sign * column[to_level ? rows - 1 - i : i];
        }
    }
}

void Influence::fill(std::size_t target, std::size_t source, double* values) {
    const Panel& to = mesh_.panels[target];
    const Panel& from = mesh_.panels[source];
    row_.resize(static_cast<std::size_t>(from.order));
    const Source charges{from, std::span(mesh_.points.data() + from.first, row_.size()),
                         outline_.space, quadrature_};
    for (int i = 0; i < to.order; ++i) {
        const int own = target == source ? i : -1;
        const std::size_t point = to.first + static_cast<std::size_t>(i);
        if (target < mesh_.metal_panels) {
            potentials_of(charges, mesh_.points[point], own, row_);
        } else {
            fields_of(charges, mesh_.points[point], mesh_.normals[point], own, row_);
        }
        for (std::size_t j = 0; j < row_.size(); ++j) {
            values[j * static_cast<std::size_t>(to.order) + static_cast<std::size_t>(i)] = row_[j];
        }
    }
}

/// Charges on one line make no field across it, but their images do.
bool Influence::in_line(const Panel& source, const Panel& target) const {
    if (outline_.space.planes > 0 || source.round() || target.round()) return false;
    const bool level = source.half.imag() == 0.0;
    if (level != (target.half.imag() == 0.0)) return false;
    return level ? source.middle.imag() == target.middle.imag()
                 : source.middle.real() == target.middle.real();
}

}  // namespace pinfold::field
