#include "bringup/probe_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <map>
#include <set>

#include "bringup/cover.hpp"
#include "bringup/probe_order.hpp"

namespace pinfold {
namespace {

constexpr std::size_t few_sites = 12;  ///< of a piece whose contacts are tried pair by pair
using SitePair = std::pair<std::size_t, std::size_t>;
using PiecePair = std::pair<std::uint32_t, std::uint32_t>;

class Planner {
public:
    explicit Planner(const Bench& bench) : bench_(bench) {}

    ProbePlan plan() {
        sort_faults();
        gather_promised();
        gather_closed();
        gather_open();
        choose();
        ProbePlan plan;
        plan.probes = in_order(bench_, std::move(chosen_), seen_);
        plan.faults = seen_.size();
        count_outcomes(plan);
        find_bounds(plan);
        plan.unseen = limitations_of_unseen();
        plan.alike = limitations_of_alike();
        plan.arrives = std::ranges::all_of(
            bench_.wiring.passes(), [](const Pass& pass) { return pass.state == State::good; });
        return plan;
    }

private:
    void sort_faults() {
        for (std::size_t f = 0; f < bench_.faults.size(); ++f) {
            if (bench_.faults[f].at_device) continue;
            (bench_.partitions[f] == bench_.sound() ? unseen_ : seen_).push_back(f);
        }
    }

    void add(std::size_t one, std::size_t other, ReadingStage stage, std::string why) {
        const SitePair pair = std::minmax(one, other);
        if (pair.first == pair.second || !known_.insert(pair).second) return;
        Probe probe;
        probe.from = pair.first;
        probe.to = pair.second;
        probe.closed = bench_.sound()[pair.first] == bench_.sound()[pair.second];
        probe.stage = stage;
        probe.why = std::move(why);
        candidates_.push_back(std::move(probe));
    }

    std::string signal_at(std::size_t site) const {
        const std::string& name = bench_.design.contact(bench_.contact(site)).name;
        return name.empty() ? name_of(bench_.design, bench_.contact(site)) : name;
    }

    void gather_promised() {
        for (const Pass& pass : bench_.wiring.passes()) {
            if (pass.state != State::good) continue;
            const auto from = bench_.sites.at(bench_.wiring.point_of(pass.from));
            const auto to = bench_.sites.at(bench_.wiring.point_of(pass.to));
            if (!from || !to || bench_.sound()[*from] != bench_.sound()[*to]) continue;
            add(*from, *to, ReadingStage::signal, fmt::format("{} arrives", signal_at(*from)));
        }
        promised_ = candidates_.size();
    }

    /// Readings between contacts of one piece: all of a small one, of a great ground each contact
    /// with the first and with the next.
    void gather_closed() {
        std::map<std::uint32_t, std::vector<std::size_t>> pieces;
        for (std::size_t s = 0; s < bench_.sites.all().size(); ++s) {
            pieces[bench_.sound()[s]].push_back(s);
        }
        for (const auto& [piece, sites] : pieces) {
            for (std::size_t i = 0; i < sites.size(); ++i) {
                for (std::size_t k = i + 1; k < sites.size(); ++k) {
                    if (sites.size() > few_sites && i > 0 && k > i + 1) break;
                    add(sites[i], sites[k], ReadingStage::signal,
                        fmt::format("every joint of {} holds", signal_at(sites[i])));
                }
            }
        }
    }

    PiecePair pieces_of(std::size_t one, std::size_t other) const {
        return std::minmax(bench_.sound()[one], bench_.sound()[other]);
    }

    Standing standing_at(std::size_t site) const {
        return bench_.pieces.standing(bench_.wiring.piece_of(bench_.sites.all()[site].point));
    }

    /// One place to measure each bridge: on the port where most lie side by side, so that the
    /// hands move least.
    void gather_open() {
        std::vector<std::pair<PortRef, std::vector<SitePair>>> ports = neighbours_by_port();
        std::ranges::stable_sort(ports, [](const auto& one, const auto& other) {
            return one.second.size() > other.second.size();
        });
        std::set<PiecePair> done;
        for (const auto& [port, pairs] : ports) {
            for (const auto& [one, other] : pairs) {
                if (done.insert(pieces_of(one, other)).second) add_open(one, other);
            }
        }
        for (const std::size_t fault : seen_) {
            if (bench_.faults[fault].kind != FaultKind::bridge) continue;
            const auto pair = nearest(bench_.faults[fault].change.added.front());
            if (pair && done.insert(pieces_of(pair->first, pair->second)).second) {
                add_open(pair->first, pair->second);
            }
        }
    }

    void add_open(std::size_t one, std::size_t other) {
        const bool supply =
            standing_at(one) == Standing::supply || standing_at(other) == Standing::supply;
        add(one, other, supply ? ReadingStage::supply : ReadingStage::neighbour,
            fmt::format("{} is not on {}", signal_at(one), signal_at(other)));
    }

    std::vector<std::pair<PortRef, std::vector<SitePair>>> neighbours_by_port() const {
        std::vector<std::pair<PortRef, std::vector<SitePair>>> ports;
        std::set<PortRef> met;
        for (const Site& site : bench_.sites.all()) {
            if (!met.insert(site.contact.port).second) continue;
            ports.push_back({site.contact.port, {}});
            for (const auto& [i, k] : neighbours_in(bench_.design, site.contact.port)) {
                const auto one = site_of({site.contact.port, i});
                const auto other = site_of({site.contact.port, k});
                if (one && other && would_bridge(*one, *other)) {
                    ports.back().second.emplace_back(*one, *other);
                }
            }
        }
        return ports;
    }

    std::optional<std::size_t> site_of(const ContactRef& contact) const {
        return bench_.sites.at(bench_.wiring.point_of(contact));
    }

    bool would_bridge(std::size_t one, std::size_t other) const {
        const auto is_live = [&](std::size_t site) {
            return bench_.pieces.is_live(bench_.wiring.piece_of(bench_.sites.all()[site].point));
        };
        return bench_.sound()[one] != bench_.sound()[other] && is_live(one) && is_live(other);
    }

    /// The two sites nearest each other on the pieces of two points.
    std::optional<SitePair> nearest(const std::pair<Point, Point>& points) const {
        const std::uint32_t here = bench_.wiring.piece_of(points.first);
        const std::uint32_t there = bench_.wiring.piece_of(points.second);
        std::optional<SitePair> best;
        std::size_t least = 0;
        for (const std::size_t one : sites_on(here)) {
            for (const std::size_t other : sites_on(there)) {
                const std::size_t way = distance(bench_, one, other);
                if (best && way >= least) continue;
                best = SitePair{one, other};
                least = way;
            }
        }
        return best;
    }

    const std::vector<std::size_t>& sites_on(std::uint32_t piece) const {
        if (by_piece_.empty()) {
            for (std::size_t s = 0; s < bench_.sites.all().size(); ++s) {
                by_piece_[bench_.wiring.piece_of(bench_.sites.all()[s].point)].push_back(s);
            }
        }
        return by_piece_[piece];
    }

    bool shows(const Probe& probe, std::size_t fault) const {
        const Partition& partition = bench_.partitions[fault];
        return (partition[probe.from] == partition[probe.to]) != probe.closed;
    }

    /// Faults that are shown by the same readings count once.
    void choose() {
        std::map<std::vector<std::size_t>, std::size_t> columns;
        std::vector<std::vector<std::size_t>> distinct;
        for (const std::size_t fault : seen_) {
            std::vector<std::size_t> column;
            for (std::size_t t = 0; t < candidates_.size(); ++t) {
                if (shows(candidates_[t], fault)) column.push_back(t);
            }
            if (columns.try_emplace(column, distinct.size()).second) distinct.push_back(column);
        }
        CoverProblem problem{distinct.size(), {}, {}};
        problem.shows.assign(candidates_.size(), Bits(distinct.size()));
        for (std::size_t f = 0; f < distinct.size(); ++f) {
            for (const std::size_t test : distinct[f]) problem.shows[test].set(f);
        }
        for (std::size_t t = 0; t < promised_; ++t) problem.kept.push_back(t);
        constexpr std::size_t work = 4'000'000;
        const std::size_t size = std::max<std::size_t>(1, distinct.size() * candidates_.size());
        for (const std::size_t test : least_cover(problem, work / size + 1).tests) {
            chosen_.push_back(candidates_[test]);
        }
    }

    void count_outcomes(ProbePlan& plan) const {
        std::set<std::vector<bool>> outcomes{std::vector<bool>(plan.probes.size(), false)};
        std::set<Partition> all{bench_.sound()};
        for (const std::size_t fault : seen_) {
            std::vector<bool> outcome;
            for (const Probe& probe : plan.probes) outcome.push_back(shows(probe, fault));
            outcomes.insert(std::move(outcome));
            all.insert(bench_.partitions[fault]);
        }
        plan.told_apart = outcomes.size();
        plan.most_told_apart = all.size();
    }

    /// A site that a fault parts from everything, all else staying as it is.
    std::optional<std::size_t> parted_by(std::size_t fault) const {
        const Partition& sound = bench_.sound();
        const Partition& now = bench_.partitions[fault];
        std::map<std::uint32_t, std::uint32_t> moved;
        std::optional<std::size_t> parted;
        for (std::size_t s = 0; s < now.size(); ++s) {
            if (now[s] == s && sound[s] != s) {
                if (parted) return std::nullopt;
                parted = s;
            }
        }
        if (parted && std::ranges::count(now, static_cast<std::uint32_t>(*parted)) == 1) {
            return parted;
        }
        return first_parted(now);
    }

    /// The same for the first site of its piece, whose going renumbers the others.
    std::optional<std::size_t> first_parted(const Partition& now) const {
        const Partition& sound = bench_.sound();
        for (std::size_t s = 0; s < now.size(); ++s) {
            if (now[s] == sound[s]) continue;
            const std::size_t first = sound[s];
            if (now[s] != s || std::ranges::count(now, static_cast<std::uint32_t>(first)) != 1) {
                return std::nullopt;
            }
            for (std::size_t k = s; k < now.size(); ++k) {
                if (sound[k] == first ? now[k] != s : now[k] != sound[k]) return std::nullopt;
            }
            return first;
        }
        return std::nullopt;
    }

    void find_bounds(ProbePlan& plan) const {
        std::set<std::size_t> parted;
        std::set<PiecePair> bridged;
        for (const std::size_t fault : seen_) {
            if (const auto site = parted_by(fault)) parted.insert(*site);
            if (bench_.faults[fault].kind != FaultKind::bridge) continue;
            const auto& [one, other] = bench_.faults[fault].change.added.front();
            bridged.insert(std::minmax(bench_.wiring.piece_of(one), bench_.wiring.piece_of(other)));
        }
        plan.least_closed = std::max(promised_, (parted.size() + 1) / 2);
        plan.least_open = bridged.size();
    }

    std::vector<Limitation> limitations_of_unseen() const {
        std::map<std::string, Limitation> by_cause;
        for (const std::size_t fault : unseen_) {
            Limitation& limitation = by_cause[bench_.faults[fault].cause];
            if (limitation.places++ == 0) limitation.example = bench_.faults[fault].text;
            limitation.why =
                "something else joins the same points, as the other grounds of a ribbon do: only a "
                "milliohm meter with four wires, or a lens, tells";
        }
        std::vector<Limitation> limitations;
        for (auto& [cause, limitation] : by_cause) limitations.push_back(std::move(limitation));
        return limitations;
    }

    static const char* why_alike(FaultKind kind) {
        switch (kind) {
            case FaultKind::order:
                return "the order is the same whichever end is wrong; look at the marked edge and "
                       "at the bared copper";
            case FaultKind::shift:
                return "one place up at one end is one place down at the other; look at both ends";
            case FaultKind::open:
                return "a conductor and the contacts at its ends are in one row; take the ribbon "
                       "out and measure it alone";
            case FaultKind::bridge:
                return "two signals joined anywhere are joined everywhere; part the assembly at "
                       "its "
                       "ribbons and measure each part alone";
            default: return "they join the same contacts; part the assembly and measure each part";
        }
    }

    std::vector<Limitation> limitations_of_alike() const {
        std::map<FaultKind, Limitation> by_kind;
        for (const std::vector<std::size_t>& group : pinfold::alike(bench_, seen_)) {
            if (group.size() < 2) continue;
            const FaultKind kind = bench_.faults[group.front()].kind;
            Limitation& limitation = by_kind[kind];
            if (limitation.places++ == 0) {
                limitation.example =
                    bench_.faults[group[0]].text + "; or: " + bench_.faults[group[1]].text;
            }
            limitation.why = why_alike(kind);
        }
        std::vector<Limitation> limitations;
        for (auto& [kind, limitation] : by_kind) limitations.push_back(std::move(limitation));
        return limitations;
    }

    const Bench& bench_;
    std::vector<std::size_t> seen_, unseen_;  ///< faults
    std::vector<Probe> candidates_;
    std::size_t promised_ = 0;  ///< so many candidates prove a promise
    std::set<SitePair> known_;
    std::vector<Probe> chosen_;
    mutable std::map<std::uint32_t, std::vector<std::size_t>> by_piece_;
};

}  // namespace

ProbePlan probe_plan(const Bench& bench) { return Planner(bench).plan(); }

std::size_t least_readings_to_tell(std::size_t outcomes) {
    return outcomes < 2 ? 0 : static_cast<std::size_t>(std::bit_width(outcomes - 1));
}

}  // namespace pinfold
