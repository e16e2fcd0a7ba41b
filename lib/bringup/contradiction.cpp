#include "bringup/contradiction.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>

#include "base/groups.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_readings_told = 20;

class Contradicted {
public:
    Contradicted(const MeterReadings& readings, const Design& design, const Wiring& wiring)
        : readings_(readings), design_(design), wiring_(wiring), joined_(wiring.points()) {}

    std::vector<Contradiction> find() {
        find_both_ways();
        for (const MeterReading& row : readings_.rows) {
            if (is_bare(row) && row.closed) joined_.join(row.from, row.to);
        }
        for (const MeterReading& row : readings_.rows) {
            const bool parted = is_bare(row) && !row.closed && joined_.joined(row.from, row.to);
            if (parted && told_.size() < most_readings_told && !both_.contains(key(row)))
                tell_chain(row);
        }
        return std::move(told_);
    }

private:
    /// The two points and what was plugged in; a diode has a direction.
    using Key = std::tuple<Point, Point, std::vector<std::size_t>, bool>;

    static Key key(const MeterReading& row) {
        const auto [low, high] = std::minmax(row.from, row.to);
        if (row.with.empty()) return {low, high, {}, false};
        return {row.from, row.to, row.with, row.volts.has_value()};
    }
    static bool is_bare(const MeterReading& row) { return row.with.empty(); }
    std::string name(Point point) const { return wiring_.name_of(point, design_); }

    /// Whether two readings of one thing differ; of numbers, by more than a fifth.
    static bool differ(const MeterReading& one, const MeterReading& other) {
        if (is_bare(one) || one.closed != other.closed) return one.closed != other.closed;
        const double here = number(one), there = number(other);
        return std::max(here, there) > 1.2 * std::min(here, there);
    }

    /// Open is more than any number.
    static double number(const MeterReading& row) {
        return row.volts  ? row.volts->value()
               : row.ohms ? row.ohms->value()
                          : std::numeric_limits<double>::max();
    }

    void find_both_ways() {
        std::map<Key, const MeterReading*> first;
        for (const MeterReading& row : readings_.rows) {
            const auto [seen, is_new] = first.try_emplace(key(row), &row);
            if (is_new || !differ(*seen->second, row)) continue;
            const bool told = !both_.insert(key(row)).second;
            if (!told && told_.size() < most_readings_told) tell_both_ways(*seen->second, row);
        }
    }

    void tell_both_ways(const MeterReading& one, const MeterReading& other) {
        told_.push_back(
            {{one.row, other.row},
             one.from,
             one.to,
             fmt::format("{} to {} was measured {}: a loose contact, or a slip of the hand; "
                         "measure it again while you move the ribbon gently",
                         name(one.from), name(one.to),
                         is_bare(one) ? "closed and open" : "twice, with different results"),
             one.with});
    }

    void tell_chain(const MeterReading& open) {
        Contradiction told{
            {open.row},
            open.from,
            open.to,
            fmt::format("{} to {} was measured open, but other readings join them: a loose "
                        "contact, or a slip of the hand; measure these again",
                        name(open.from), name(open.to))};
        for (const MeterReading* row : chain(open.from, open.to)) told.rows.push_back(row->row);
        told_.push_back(std::move(told));
    }

    /// The fewest closed readings that lead from one point to another.
    std::vector<const MeterReading*> chain(Point from, Point to) const {
        std::map<Point, std::pair<Point, const MeterReading*>> came;
        std::vector<Point> queue{from};
        for (std::size_t i = 0; i < queue.size() && !came.contains(to); ++i) {
            for (const MeterReading& row : readings_.rows) {
                if (!is_bare(row) || !row.closed) continue;
                if (row.from != queue[i] && row.to != queue[i]) continue;
                const Point next = row.from == queue[i] ? row.to : row.from;
                if (next == from || !came.try_emplace(next, queue[i], &row).second) continue;
                queue.push_back(next);
            }
        }
        std::vector<const MeterReading*> rows;
        for (Point at = to; at != from && came.contains(at); at = came.at(at).first) {
            rows.push_back(came.at(at).second);
        }
        return rows;
    }

    const MeterReadings& readings_;
    const Design& design_;
    const Wiring& wiring_;
    Groups joined_;       ///< points, by closed readings
    std::set<Key> both_;  ///< measured both ways
    std::vector<Contradiction> told_;
};

}  // namespace

std::vector<Contradiction> contradictions_in(const MeterReadings& readings, const Design& design,
                                             const Wiring& wiring) {
    return Contradicted(readings, design, wiring).find();
}

}  // namespace pinfold
