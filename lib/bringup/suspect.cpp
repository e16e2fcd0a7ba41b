#include "bringup/suspect.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <span>

namespace pinfold {
namespace {

constexpr std::size_t most_pairs_tried = 100'000;
constexpr std::size_t most_points_tried = 20'000'000;  ///< and rows, over all pairs: about a second
constexpr std::size_t most_first_faults = 60;
constexpr std::size_t most_samples = 4;        ///< of faults alike in what was measured
constexpr std::size_t most_pairs_beside = 40;  ///< pairs told after singles that explain as much

class SuspectSearch {
public:
    explicit SuspectSearch(Inquiry& inquiry) : inquiry_(inquiry), bench_(inquiry.bench) {}

    Suspects run() {
        if (inquiry_.agrees_with_all(bench_.sound())) return {{{{}, {}, bench_.sound()}}, true};
        think_of_strays();
        for (const Partition& partition : bench_.partitions) {
            wrong_.push_back(inquiry_.disagreements(partition));
        }
        suspect_singles();
        if (found_.empty()) {
            suspect_pairs();
        } else {
            suspect_plain_pairs();
        }
        if (!found_.empty()) return {std::move(found_), true};
        suspect_nearest();
        return {std::move(found_), false};
    }

private:
    std::pair<std::uint32_t, std::uint32_t> pieces_of(const std::pair<Point, Point>& points) const {
        return std::minmax(bench_.wiring.piece_of(points.first),
                           bench_.wiring.piece_of(points.second));
    }

    /// Bridges between points that were measured closed and should not be; what neighbours explain
    /// is left to them.
    void think_of_strays() {
        std::set<std::pair<std::uint32_t, std::uint32_t>> known;
        for (const Fault& fault : bench_.faults) {
            if (fault.kind == FaultKind::bridge)
                known.insert(pieces_of(fault.change.added.front()));
        }
        for (std::size_t i = 0; i < inquiry_.rows(); ++i) {
            const MeterReading& row = inquiry_.readings.rows[i];
            if (!row.closed || !row.with.empty() || inquiry_.agrees(bench_.sound(), i)) continue;
            if (!known.insert(pieces_of({row.from, row.to})).second) continue;
            bench_.faults.push_back(stray_bridge(bench_.design, bench_.wiring, row.from, row.to));
            bench_.partitions.push_back(bench_.assembly.with(bench_.faults.back().change));
        }
    }

    void suspect_singles() {
        std::vector<std::size_t> fitting;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (wrong_[f] == 0) fitting.push_back(f);
        }
        suspect(fitting);
    }

    void suspect(const std::vector<std::size_t>& faults) {
        for (std::vector<std::size_t>& group : alike(bench_, faults)) {
            Partition partition = bench_.partitions[group.front()];
            found_.push_back({std::move(group), {}, std::move(partition)});
        }
    }

    /// Faults that the readings taken cannot tell apart, each group once; those that predict most
    /// readings first.
    std::vector<std::vector<std::size_t>> classes(const std::vector<std::size_t>& faults) const {
        std::map<std::vector<bool>, std::size_t> places;
        std::vector<std::vector<std::size_t>> groups;
        for (const std::size_t f : faults) {
            std::vector<bool> predicted;
            for (std::size_t i = 0; i < inquiry_.rows(); ++i) {
                predicted.push_back(inquiry_.agrees(bench_.partitions[f], i));
            }
            const auto [place, is_new] = places.try_emplace(std::move(predicted), groups.size());
            if (is_new) groups.emplace_back();
            groups[place->second].push_back(f);
        }
        std::ranges::stable_sort(groups, {}, [&](const std::vector<std::size_t>& group) {
            return std::pair(wrong_[group.front()], bench_.faults[group.front()].kind);
        });
        return groups;
    }

    /// Two faults that move the same links cannot be put on top of each other.
    static bool go_together(const Fault& one, const Fault& other) {
        if (one.change.added.empty() || other.change.added.empty()) return true;
        return std::ranges::none_of(one.change.cut, [&](std::uint32_t link) {
            return std::ranges::find(other.change.cut, link) != other.change.cut.end();
        });
    }

    /// The first faults of a group. Alone they cannot be told apart; beside another fault they may.
    std::span<const std::size_t> samples(const std::vector<std::size_t>& group) const {
        return std::span(group).first(std::min(group.size(), samples_));
    }

    void try_pair(const std::vector<std::size_t>& one, const std::vector<std::size_t>& other) {
        for (const std::size_t first : samples(one)) {
            for (const std::size_t second : samples(other)) {
                ++tried_;
                const Fault& here = bench_.faults[first];
                const Fault& there = bench_.faults[second];
                if (!go_together(here, there)) continue;
                const std::array<const Change*, 2> both{&here.change, &there.change};
                Partition partition = bench_.assembly.with(both);
                if (!inquiry_.agrees_with_all(partition)) continue;
                found_.push_back(
                    {with_first(one, first), with_first(other, second), std::move(partition)});
                return;
            }
        }
    }

    static std::vector<std::size_t> with_first(std::vector<std::size_t> group, std::size_t fault) {
        std::rotate(group.begin(), std::ranges::find(group, fault), group.end());
        return group;
    }

    void try_pairs(const std::vector<std::vector<std::size_t>>& groups, std::size_t most) {
        for (std::size_t i = 0; i < std::min(groups.size(), most_first_faults); ++i) {
            for (std::size_t k = i + 1; k < groups.size() && tried_ < most; ++k) {
                try_pair(groups[i], groups[k]);
            }
        }
    }

    /// Points looked at to hold one assembly against the readings; a device shows all its contacts.
    std::size_t work() const {
        const auto& rows = inquiry_.readings.rows;
        const auto with_device =
            std::ranges::count_if(rows, [](const MeterReading& row) { return !row.with.empty(); });
        return rows.size() +
               2 * inquiry_.meter.contacts().size() * static_cast<std::size_t>(with_device);
    }

    void suspect_pairs() {
        std::vector<std::size_t> faults;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (bench_.partitions[f] != bench_.sound()) faults.push_back(f);
        }
        const std::vector<std::vector<std::size_t>> groups = classes(faults);
        const std::size_t most =
            std::min(most_pairs_tried, 1 + most_points_tried / (bench_.wiring.points() + work()));
        for (samples_ = 1; found_.empty() && samples_ <= most_samples;
             samples_ += most_samples - 1) {
            tried_ = 0;
            try_pairs(groups, most);
        }
        std::ranges::stable_sort(found_, {}, [&](const Suspect& suspect) {
            const FaultKind one = bench_.faults[suspect.faults.front()].kind;
            const FaultKind other = bench_.faults[suspect.second.front()].kind;
            return std::pair(std::min(one, other), std::max(one, other));
        });
    }

    /// Whether a fault is an open or a bridge that spoils readings, though not all that are spoilt.
    bool is_part(std::size_t f) const {
        const FaultKind kind = bench_.faults[f].kind;
        if (kind != FaultKind::open && kind != FaultKind::bridge) return false;
        if (wrong_[f] == 0) return false;
        bool spoils = false;
        for (std::size_t i = 0; i < inquiry_.rows(); ++i) {
            const bool expected = inquiry_.agrees(bench_.sound(), i);
            const bool agrees = inquiry_.agrees(bench_.partitions[f], i);
            if (expected && !agrees) return false;  // it spoils what is as on a sound assembly
            spoils = spoils || (!expected && agrees);
        }
        return spoils;
    }

    /// Two opens or bridges that together do what one greater fault does.
    void suspect_plain_pairs() {
        std::vector<std::size_t> parts;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (is_part(f)) parts.push_back(f);
        }
        const std::vector<std::vector<std::size_t>> groups = classes(parts);
        const std::size_t end = found_.size() + most_pairs_beside;
        for (std::size_t i = 0; i < std::min(groups.size(), most_first_faults); ++i) {
            for (std::size_t k = i + 1; k < groups.size() && found_.size() < end; ++k) {
                try_pair(groups[i], groups[k]);
            }
        }
    }

    void suspect_nearest() {
        const std::size_t without = inquiry_.disagreements(bench_.sound());
        std::size_t least = without;
        for (const std::size_t wrong : wrong_) least = std::min(least, wrong);
        if (least == without) {
            found_.push_back({{}, {}, bench_.sound()});
            return;
        }
        std::vector<std::size_t> nearest;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (wrong_[f] == least) nearest.push_back(f);
        }
        suspect(nearest);
    }

    Inquiry& inquiry_;
    Bench& bench_;
    std::vector<Suspect> found_;
    std::vector<std::size_t> wrong_;  ///< by fault: readings it contradicts
    std::size_t samples_ = 1;         ///< faults tried of each group
    std::size_t tried_ = 0;           ///< pairs
};

}  // namespace

Suspects suspects_in(Inquiry& inquiry) { return SuspectSearch(inquiry).run(); }

}  // namespace pinfold
