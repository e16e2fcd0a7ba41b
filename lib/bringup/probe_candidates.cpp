#include "bringup/probe_candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "bringup/hand_walk.hpp"

namespace pinfold {
namespace {

constexpr std::size_t few_sites = 12;  ///< of a piece whose contacts are tried pair by pair
using SitePair = std::pair<std::size_t, std::size_t>;
using PiecePair = std::pair<std::uint32_t, std::uint32_t>;

class Gatherer {
public:
    explicit Gatherer(const Bench& bench) : bench_(bench), by_piece_(bench.wiring.pieces()) {
        for (std::size_t s = 0; s < bench_.sites.all().size(); ++s) {
            by_piece_[bench_.wiring.piece_of(bench_.sites.all()[s].point)].push_back(s);
        }
    }

    ProbeCandidates gather(const std::vector<std::size_t>& faults) {
        gather_promised();
        gather_closed();
        gather_open(faults);
        return std::move(candidates_);
    }

private:
    void add(std::size_t one, std::size_t other, ReadingStage stage, std::string why) {
        const SitePair pair = std::minmax(one, other);
        if (pair.first == pair.second || !known_.insert(pair).second) return;
        Probe probe;
        probe.from = pair.first;
        probe.to = pair.second;
        probe.closed = bench_.sound()[pair.first] == bench_.sound()[pair.second];
        probe.stage = stage;
        probe.why = std::move(why);
        candidates_.probes.push_back(std::move(probe));
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
        candidates_.promised = candidates_.probes.size();
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
    void gather_open(const std::vector<std::size_t>& faults) {
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
        for (const std::size_t fault : faults) {
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

    const std::vector<std::size_t>& sites_on(std::uint32_t piece) const { return by_piece_[piece]; }

    const Bench& bench_;
    ProbeCandidates candidates_;
    std::set<SitePair> known_;
    std::vector<std::vector<std::size_t>> by_piece_;  ///< sites
};

}  // namespace

ProbeCandidates probe_candidates(const Bench& bench, const std::vector<std::size_t>& faults) {
    return Gatherer(bench).gather(faults);
}

}  // namespace pinfold
