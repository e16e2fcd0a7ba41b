#include "bringup/diagnosis.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>

namespace pinfold {
namespace {

constexpr std::size_t most_causes = 12;
constexpr std::size_t most_next = 3;
constexpr std::size_t most_pairs_tried = 40'000;
constexpr std::size_t most_first_faults = 60;
constexpr std::size_t most_sites_compared = 120;

std::vector<Point> points_in(const MeterReadings& readings) {
    std::vector<Point> points;
    for (const MeterReading& row : readings.rows) points.insert(points.end(), {row.from, row.to});
    return points;
}

/// One set of faults and what it makes of the assembly.
struct Suspect {
    std::vector<std::size_t> faults;  ///< alike ones, if it is one fault
    std::vector<std::size_t> second;
    Partition partition;
};

class Diagnoser {
public:
    Diagnoser(const Design& design, const Wiring& wiring, const MeterReadings& readings)
        : readings_(readings), bench_(set_up(design, wiring, points_in(readings))) {}

    Diagnosis run() {
        diagnosis_.measured = readings_.rows.size();
        diagnosis_.blank = readings_.blank;
        for (std::size_t i = 0; i < readings_.rows.size(); ++i) {
            if (!agrees(bench_.sound(), i)) diagnosis_.unexpected.push_back(readings_.rows[i].row);
        }
        find_contradictions();
        if (diagnosis_.unexpected.empty()) {
            suspects_.push_back({{}, {}, bench_.sound()});
            diagnosis_.sound = true;
        } else {
            think_of_strays();
            suspect_singles();
            if (suspects_.empty()) suspect_pairs();
        }
        diagnosis_.explained = !suspects_.empty();
        if (suspects_.empty()) suspect_nearest();
        tell_causes();
        tell_next();
        return std::move(diagnosis_);
    }

private:
    std::size_t watched(std::size_t row, bool to) const {
        return bench_.sites.all().size() + 2 * row + (to ? 1 : 0);
    }

    bool agrees(const Partition& partition, std::size_t row) const {
        const bool joined = partition[watched(row, false)] == partition[watched(row, true)];
        return joined == readings_.rows[row].closed;
    }

    std::size_t disagreements(const Partition& partition) const {
        std::size_t rows = 0;
        for (std::size_t i = 0; i < readings_.rows.size(); ++i)
            rows += agrees(partition, i) ? 0 : 1;
        return rows;
    }

    std::string name(Point point) const { return bench_.wiring.name_of(point, bench_.design); }

    /// One pair measured both ways; or closed from A to B to C and open from A to C.
    void find_contradictions() {
        std::map<std::pair<Point, Point>, std::size_t> first;
        std::map<Point, Point> parent;
        const auto root = [&](Point point) {
            while (parent.contains(point) && parent[point] != point) point = parent[point];
            return point;
        };
        for (std::size_t i = 0; i < readings_.rows.size(); ++i) {
            const MeterReading& row = readings_.rows[i];
            const auto [seen, is_new] = first.try_emplace(std::minmax(row.from, row.to), i);
            if (!is_new && readings_.rows[seen->second].closed != row.closed) {
                tell_both_ways(seen->second, i);
            }
            if (row.closed) parent[root(row.from)] = root(row.to);
        }
        for (const MeterReading& row : readings_.rows) {
            const auto both = first.find(std::minmax(row.from, row.to));
            const bool told = std::ranges::any_of(
                diagnosis_.contradictions, [&](const Contradiction& contradiction) {
                    return contradiction.rows.front() == readings_.rows[both->second].row;
                });
            if (row.closed || told || root(row.from) != root(row.to)) continue;
            tell_chain(row);
        }
    }

    void tell_both_ways(std::size_t one, std::size_t other) {
        const MeterReading& row = readings_.rows[one];
        diagnosis_.contradictions.push_back(
            {{row.row, readings_.rows[other].row},
             fmt::format("{} to {} was measured closed and open: a loose contact, or a slip of the "
                         "hand; measure it again while you move the ribbon gently",
                         name(row.from), name(row.to))});
    }

    void tell_chain(const MeterReading& open) {
        Contradiction contradiction{
            {open.row},
            fmt::format(
                "{} to {} was measured open, but other readings join them: a loose contact, "
                "or a slip of the hand; measure these again",
                name(open.from), name(open.to))};
        for (const std::size_t row : chain(open.from, open.to)) {
            contradiction.rows.push_back(readings_.rows[row].row);
        }
        diagnosis_.contradictions.push_back(std::move(contradiction));
    }

    /// The fewest closed readings that lead from one point to another.
    std::vector<std::size_t> chain(Point from, Point to) const {
        std::map<Point, std::pair<Point, std::size_t>> came;
        std::vector<Point> queue{from};
        for (std::size_t i = 0; i < queue.size() && !came.contains(to); ++i) {
            for (std::size_t r = 0; r < readings_.rows.size(); ++r) {
                const MeterReading& row = readings_.rows[r];
                if (!row.closed || (row.from != queue[i] && row.to != queue[i])) continue;
                const Point next = row.from == queue[i] ? row.to : row.from;
                if (next == from || !came.try_emplace(next, queue[i], r).second) continue;
                queue.push_back(next);
            }
        }
        std::vector<std::size_t> rows;
        for (Point at = to; at != from && came.contains(at); at = came.at(at).first) {
            rows.push_back(came.at(at).second);
        }
        return rows;
    }

    /// Bridges between points that were measured closed and should not be; what neighbours explain
    /// is left to them.
    void think_of_strays() {
        std::set<std::pair<std::uint32_t, std::uint32_t>> known;
        for (const Fault& fault : bench_.faults) {
            if (fault.kind == FaultKind::bridge)
                known.insert(pieces_of(fault.change.added.front()));
        }
        for (std::size_t i = 0; i < readings_.rows.size(); ++i) {
            const MeterReading& row = readings_.rows[i];
            if (!row.closed || agrees(bench_.sound(), i)) continue;
            if (!known.insert(pieces_of({row.from, row.to})).second) continue;
            bench_.faults.push_back(stray_bridge(bench_.design, bench_.wiring, row.from, row.to));
            bench_.partitions.push_back(bench_.assembly.with(bench_.faults.back().change));
        }
    }

    std::pair<std::uint32_t, std::uint32_t> pieces_of(const std::pair<Point, Point>& points) const {
        return std::minmax(bench_.wiring.piece_of(points.first),
                           bench_.wiring.piece_of(points.second));
    }

    void suspect_singles() {
        std::vector<std::size_t> fitting;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (disagreements(bench_.partitions[f]) == 0) fitting.push_back(f);
        }
        suspect(fitting);
    }

    void suspect(const std::vector<std::size_t>& faults) {
        for (std::vector<std::size_t>& group : alike(bench_, faults)) {
            Partition partition = bench_.partitions[group.front()];
            suspects_.push_back({std::move(group), {}, std::move(partition)});
        }
    }

    /// Faults that the readings taken cannot tell apart, each group once; those that predict most
    /// readings first.
    std::vector<std::vector<std::size_t>> classes() const {
        std::map<std::vector<bool>, std::size_t> places;
        std::vector<std::vector<std::size_t>> groups;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (bench_.partitions[f] == bench_.sound()) continue;
            std::vector<bool> predicted;
            for (std::size_t i = 0; i < readings_.rows.size(); ++i) {
                predicted.push_back(agrees(bench_.partitions[f], i));
            }
            const auto [place, is_new] = places.try_emplace(std::move(predicted), groups.size());
            if (is_new) groups.emplace_back();
            groups[place->second].push_back(f);
        }
        std::ranges::stable_sort(groups, {}, [&](const std::vector<std::size_t>& group) {
            const std::size_t fault = group.front();
            return std::pair(disagreements(bench_.partitions[fault]), bench_.faults[fault].kind);
        });
        return groups;
    }

    /// Two faults that move the same links cannot be put on top of each other.
    bool go_together(const Fault& one, const Fault& other) const {
        if (one.change.added.empty() || other.change.added.empty()) return true;
        return std::ranges::none_of(one.change.cut, [&](std::uint32_t link) {
            return std::ranges::find(other.change.cut, link) != other.change.cut.end();
        });
    }

    void suspect_pairs() {
        const std::vector<std::vector<std::size_t>> groups = classes();
        std::size_t tried = 0;
        for (std::size_t i = 0; i < std::min(groups.size(), most_first_faults); ++i) {
            for (std::size_t k = i + 1; k < groups.size() && tried < most_pairs_tried;
                 ++k, ++tried) {
                const Fault& one = bench_.faults[groups[i].front()];
                const Fault& other = bench_.faults[groups[k].front()];
                if (!go_together(one, other)) continue;
                const std::array<const Change*, 2> both{&one.change, &other.change};
                Partition partition = bench_.assembly.with(both);
                if (disagreements(partition) > 0) continue;
                suspects_.push_back({groups[i], groups[k], std::move(partition)});
            }
        }
        std::ranges::stable_sort(suspects_, {}, [&](const Suspect& suspect) {
            const FaultKind one = bench_.faults[suspect.faults.front()].kind;
            const FaultKind other = bench_.faults[suspect.second.front()].kind;
            return std::pair(std::min(one, other), std::max(one, other));
        });
    }

    /// Where nothing explains all readings: what contradicts fewest of them.
    void suspect_nearest() {
        const std::size_t without = disagreements(bench_.sound());
        std::size_t least = without;
        for (const Partition& partition : bench_.partitions) {
            least = std::min(least, disagreements(partition));
        }
        if (least == without) {
            suspects_.push_back({{}, {}, bench_.sound()});
            return;
        }
        std::vector<std::size_t> nearest;
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (disagreements(bench_.partitions[f]) == least) nearest.push_back(f);
        }
        suspect(nearest);
    }

    std::string joined(const std::vector<std::size_t>& faults, std::string Fault::*part,
                       const char* between) const {
        constexpr std::size_t most_told = 6;
        std::vector<std::string> texts;
        for (const std::size_t fault : faults) {
            const std::string& text = bench_.faults[fault].*part;
            if (std::ranges::find(texts, text) == texts.end()) texts.push_back(text);
        }
        const std::size_t more = texts.size() > most_told ? texts.size() - most_told : 0;
        texts.resize(texts.size() - more);
        std::string text = fmt::format("{}", fmt::join(texts, between));
        if (more > 0) text += fmt::format("{}{} more like it", between, more);
        return text;
    }

    Cause cause_of(const Suspect& suspect) const {
        Cause cause;
        if (suspect.faults.empty()) {
            cause.cause = "no-fault";
            cause.text = "nothing is wrong: every reading is that of a sound assembly";
            cause.remedy = "measure what is still blank before power is applied";
        } else {
            const Fault& one = bench_.faults[suspect.faults.front()];
            cause.faults = 1;
            cause.cause = one.cause;
            cause.place = one.place;
            cause.text = joined(suspect.faults, &Fault::text, "; or ");
            cause.remedy = joined(suspect.faults, &Fault::remedy, "; or ");
        }
        if (!suspect.second.empty()) {
            const Fault& other = bench_.faults[suspect.second.front()];
            cause.faults = 2;
            cause.cause += " + " + other.cause;
            cause.place += " + " + other.place;
            cause.text = fmt::format("two faults. One: {}. Two: {}", cause.text,
                                     joined(suspect.second, &Fault::text, "; or "));
            cause.remedy += ". Then: " + joined(suspect.second, &Fault::remedy, "; or ");
        }
        for (std::size_t i = 0; i < readings_.rows.size(); ++i) {
            (agrees(suspect.partition, i) ? cause.explains : cause.contradicts)
                .push_back(readings_.rows[i].row);
        }
        return cause;
    }

    void tell_causes() {
        for (const Suspect& suspect : suspects_) {
            if (diagnosis_.causes.size() == most_causes) {
                ++diagnosis_.more_causes;
            } else {
                diagnosis_.causes.push_back(cause_of(suspect));
            }
        }
    }

    bool is_measured(std::size_t one, std::size_t other) const {
        const auto site = [&](Point point) { return bench_.sites.at(point); };
        return std::ranges::any_of(readings_.rows, [&](const MeterReading& row) {
            const auto from = site(row.from);
            const auto to = site(row.to);
            return (from == one && to == other) || (from == other && to == one);
        });
    }

    void tell_next() {
        if (suspects_.size() == 1 && suspects_.front().faults.empty()) {
            if (diagnosis_.sound) tell_rest_of_plan();
            return;
        }
        tell_split();
    }

    /// What the plan asks for and nobody has measured, and the faults each reading would show.
    void tell_rest_of_plan() {
        const ProbePlan plan = probe_plan(bench_);
        for (const Probe& probe : plan.probes) {
            if (diagnosis_.next.size() == most_next) return;
            if (is_measured(probe.from, probe.to)) continue;
            std::set<std::string> shown;
            for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
                const Partition& partition = bench_.partitions[f];
                const bool is_joined = partition[probe.from] == partition[probe.to];
                if (is_joined != probe.closed) shown.insert(bench_.faults[f].cause);
            }
            diagnosis_.next.push_back(
                {site_name(probe.from), site_name(probe.to), {shown.begin(), shown.end()}, {}, {}});
        }
    }

    std::string site_name(std::size_t site) const { return name(bench_.sites.all()[site].point); }

    /// Sites whose company differs between the suspects.
    std::vector<std::size_t> telling_sites() const {
        std::vector<std::size_t> sites;
        std::set<std::uint32_t> partners;
        for (std::size_t s = 0; s < bench_.sites.all().size(); ++s) {
            const bool differs = std::ranges::any_of(suspects_, [&](const Suspect& suspect) {
                return suspect.partition[s] != suspects_.front().partition[s] ||
                       suspect.partition[s] != bench_.sound()[s];
            });
            if (!differs) continue;
            sites.push_back(s);
            for (const Suspect& suspect : suspects_) partners.insert(suspect.partition[s]);
            partners.insert(bench_.sound()[s]);
            if (sites.size() + partners.size() > most_sites_compared) break;
        }
        for (const std::uint32_t partner : partners) {
            if (partner < bench_.sites.all().size()) sites.push_back(partner);
        }
        std::ranges::sort(sites);
        const auto again = std::ranges::unique(sites);
        sites.erase(again.begin(), again.end());
        return sites;
    }

    /// The readings that part the listed causes most evenly.
    void tell_split() {
        const std::size_t count = diagnosis_.causes.size();
        const std::vector<std::size_t> sites = telling_sites();
        std::vector<std::size_t> group(count, 0);  // causes not yet told apart have one number
        while (diagnosis_.next.size() < most_next) {
            std::size_t best_score = 0;
            std::pair<std::size_t, std::size_t> best{0, 0};
            for (std::size_t i = 0; i < sites.size(); ++i) {
                for (std::size_t k = i + 1; k < sites.size(); ++k) {
                    const std::size_t score = parted(group, sites[i], sites[k]);
                    if (score <= best_score || is_measured(sites[i], sites[k])) continue;
                    best_score = score;
                    best = {sites[i], sites[k]};
                }
            }
            if (best_score == 0) return;
            take(group, best.first, best.second);
        }
    }

    /// Pairs of causes that a reading tells apart and none before it did.
    std::size_t parted(const std::vector<std::size_t>& group, std::size_t one,
                       std::size_t other) const {
        std::map<std::size_t, std::array<std::size_t, 2>> split;
        for (std::size_t c = 0; c < group.size(); ++c) {
            const Partition& partition = suspects_[c].partition;
            ++split[group[c]][partition[one] == partition[other] ? 1 : 0];
        }
        std::size_t pairs = 0;
        for (const auto& [number, sides] : split) pairs += sides[0] * sides[1];
        return pairs;
    }

    void take(std::vector<std::size_t>& group, std::size_t one, std::size_t other) {
        NextReading next{site_name(one), site_name(other), {}, {}, {}};
        for (std::size_t c = 0; c < group.size(); ++c) {
            const Partition& partition = suspects_[c].partition;
            const bool closed = partition[one] == partition[other];
            (closed ? next.if_closed : next.if_open).push_back(c + 1);
            group[c] = 2 * group[c] + (closed ? 1 : 0);
            const Cause& cause = diagnosis_.causes[c];
            const std::string told =
                cause.place.empty() ? cause.cause : fmt::format("{} {}", cause.cause, cause.place);
            if (std::ranges::find(next.tells_apart, told) == next.tells_apart.end()) {
                next.tells_apart.push_back(told);
            }
        }
        diagnosis_.next.push_back(std::move(next));
    }

    const MeterReadings& readings_;
    Bench bench_;
    std::vector<Suspect> suspects_;
    Diagnosis diagnosis_;
};

}  // namespace

Diagnosis diagnose(const Design& design, const Wiring& wiring, const MeterReadings& readings) {
    return Diagnoser(design, wiring, readings).run();
}

}  // namespace pinfold
