#include "physics/field_influence.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <span>
#include <tuple>

#include "physics/field_panel.hpp"

namespace pinfold::field {
namespace {

/// Blocks of the influence, found again by the shapes of both panels and how far apart they stand.
class BlockTable {
public:
    explicit BlockTable(std::size_t entries) : slots_(16) { values_.reserve(entries / 2); }

    /// The block's place in `values`, made by `make` if it is new; `key` is not nothing.
    template <class Make>
    const double* find(std::uint64_t key, std::size_t size, const Make& make) {
        Slot* slot = &slot_of(key);
        if (slot->key != key) {
            if (2 * ++used_ > slots_.size()) {
                grow();
                slot = &slot_of(key);
            }
            *slot = {key, values_.size()};
            values_.resize(values_.size() + size);
            make(std::span(values_.data() + slot->first, size));
        }
        return values_.data() + slot->first;
    }

private:
    struct Slot {
        std::uint64_t key = 0;
        std::size_t first = 0;
    };

    Slot& slot_of(std::uint64_t key) {
        const std::size_t mask = slots_.size() - 1;
        std::size_t at = (key * 0x9E3779B97F4A7C15U) >> 32 & mask;
        while (slots_[at].key != 0 && slots_[at].key != key) at = (at + 1) & mask;
        return slots_[at];
    }

    void grow() {
        std::vector<Slot> old(4 * slots_.size());
        old.swap(slots_);
        for (const Slot& slot : old) {
            if (slot.key != 0) slot_of(slot.key) = slot;
        }
    }

    std::vector<Slot> slots_;
    std::size_t used_ = 0;
    std::vector<double> values_;
};

/// Panels that are one another shifted along x are of one kind.
struct Shift {
    std::uint64_t kind = 0;
    std::int64_t x = 0;  ///< of the middle, in steps far finer than any panel
};

class Influence {
public:
    Influence(const Outline& outline, const Mesh& mesh)
        : outline_(outline),
          mesh_(mesh),
          grid_(1e-8 * outline.size),
          blocks_(mesh.points.size() * 16) {
        std::map<std::tuple<double, double, double, double, double, double, int, bool>,
                 std::uint64_t>
            kinds;
        for (std::size_t p = 0; p < mesh.panels.size(); ++p) {
            const Panel& panel = mesh.panels[p];
            const auto shape = std::tuple(rounded(panel.half.real()), rounded(panel.half.imag()),
                                          rounded(panel.middle.imag()), rounded(panel.radius),
                                          panel.measure.sharp_from, panel.measure.sharp_to,
                                          panel.order, p < mesh.metal_panels);
            const auto kind = kinds.emplace(shape, kinds.size() + 1).first->second;
            shifts_.push_back({kind, std::llround(panel.middle.real() / grid_)});
        }
    }

    Rows rows(const std::vector<std::size_t>& chosen) {
        Rows rows(static_cast<Eigen::Index>(chosen.size()),
                  static_cast<Eigen::Index>(mesh_.points.size()));
        std::size_t row = 0;
        for (std::size_t target = 0; target < mesh_.panels.size(); ++target) {
            const Panel& panel = mesh_.panels[target];
            const std::size_t end = panel.first + static_cast<std::size_t>(panel.order);
            std::size_t last = row;
            while (last < chosen.size() && chosen[last] < end) ++last;
            if (last == row) continue;
            for (std::size_t source = 0; source < mesh_.panels.size(); ++source) {
                const double* const block = block_of(target, source);
                const auto width = static_cast<std::size_t>(mesh_.panels[source].order);
                for (std::size_t i = row; i < last; ++i) {
                    double* const out =
                        rows.data() + i * mesh_.points.size() + mesh_.panels[source].first;
                    std::copy_n(block + (chosen[i] - panel.first) * width, width, out);
                }
            }
            row = last;
        }
        return rows;
    }

private:
    double rounded(double mm) const { return std::round(mm / grid_); }

    const double* block_of(std::size_t target, std::size_t source) {
        const Shift& to = shifts_[target];
        const Shift& from = shifts_[source];
        // 11 and 12 bits of the kinds and 40 of the distance; beyond that, each pair for itself.
        const std::int64_t apart = to.x - from.x;
        const bool fits = to.kind < 2048 && from.kind < 4096 && std::abs(apart) < (1LL << 38);
        const std::uint64_t key = fits ? (to.kind << 52 | from.kind << 40 |
                                          static_cast<std::uint64_t>(apart + (1LL << 38)))
                                       : (1ULL << 63 | target << 24 | source);
        const auto size = static_cast<std::size_t>(mesh_.panels[target].order) *
                          static_cast<std::size_t>(mesh_.panels[source].order);
        return blocks_.find(key, size,
                            [&](std::span<double> values) { fill(target, source, values); });
    }

    void fill(std::size_t target, std::size_t source, std::span<double> values) const {
        const Panel& to = mesh_.panels[target];
        const Panel& from = mesh_.panels[source];
        const auto width = static_cast<std::size_t>(from.order);
        for (std::size_t i = 0; i < static_cast<std::size_t>(to.order); ++i) {
            const std::span row = values.subspan(i * width, width);
            const int own = target == source ? static_cast<int>(i) : -1;
            const std::size_t point = to.first + i;
            if (target < mesh_.metal_panels) {
                potentials_of(from, outline_.space, mesh_.points[point], own, row);
            } else if (in_line(from, to)) {
                std::ranges::fill(row, 0.0);
            } else {
                fields_of(from, outline_.space, mesh_.points[point], mesh_.normals[point], own,
                          row);
            }
        }
    }

    /// Charges on one line make no field across it, but their images do.
    bool in_line(const Panel& source, const Panel& target) const {
        if (outline_.space.planes > 0 || source.round() || target.round()) return false;
        const bool level = source.half.imag() == 0.0;
        if (level != (target.half.imag() == 0.0)) return false;
        return level ? source.middle.imag() == target.middle.imag()
                     : source.middle.real() == target.middle.real();
    }

    const Outline& outline_;
    const Mesh& mesh_;
    double grid_;
    std::vector<Shift> shifts_;
    BlockTable blocks_;
};

}  // namespace

Rows influence_of(const Outline& outline, const Mesh& mesh,
                  const std::vector<std::size_t>& chosen) {
    return Influence(outline, mesh).rows(chosen);
}

}  // namespace pinfold::field
