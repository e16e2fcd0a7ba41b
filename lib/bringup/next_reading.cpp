#include "bringup/next_reading.hpp"

#include <algorithm>
#include <iterator>
#include <set>

#include "bringup/next_device.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_sites_compared = 120;

enum class Expected : char { open, closed, either };
using Expectations = std::vector<Expected>;  ///< by suspect: what the reading would be under it

/// Parts suspects by readings, best first.
class Parter {
public:
    Parter(const Inquiry& inquiry, const std::vector<Suspect>& suspects,
           const std::vector<std::string>& names)
        : inquiry_(inquiry),
          bench_(inquiry.bench),
          suspects_(suspects),
          names_(names),
          apart_(names.size() * names.size(), 0) {}

    std::vector<NextReading> by_sites() {
        part_by_sites();
        return std::move(next_);
    }
    std::vector<NextReading> by_ribbons() {
        part_by_ribbons();
        return std::move(next_);
    }

private:
    Point point(std::size_t site) const { return bench_.sites.all()[site].point; }

    /// Sites whose company differs between the suspects.
    std::vector<std::size_t> telling_sites() const {
        std::set<std::size_t> sites;
        for (std::size_t s = 0; s < bench_.sites.all().size(); ++s) {
            const std::uint32_t first = suspects_.front().partition[s];
            for (std::size_t i = 1; i < names_.size(); ++i) {
                const std::uint32_t company = suspects_[i].partition[s];
                if (company == first) continue;
                sites.insert(s);
                for (const std::uint32_t partner : {first, company, bench_.sound()[s]}) {
                    if (partner < bench_.sites.all().size()) sites.insert(partner);
                }
            }
            if (sites.size() > most_sites_compared) break;
        }
        return {sites.begin(), sites.end()};
    }

    Expectations sides(std::size_t one, std::size_t other) const {
        Expectations sides(names_.size());
        for (std::size_t c = 0; c < sides.size(); ++c) sides[c] = side(suspects_[c], one, other);
        return sides;
    }

    /// Faults of a pair that the readings so far do not tell apart may differ on this one.
    Expected side(const Suspect& suspect, std::size_t one, std::size_t other) const {
        for (const auto* some : {&suspect.faults, &suspect.second}) {
            if (suspect.second.empty()) break;
            const auto is_closed = [&](std::size_t fault) {
                return bench_.is_joined(bench_.partitions[fault], one, other);
            };
            const auto closed = std::ranges::count_if(*some, is_closed);
            if (closed != 0 && closed != std::ssize(*some)) return Expected::either;
        }
        return bench_.is_joined(suspect.partition, one, other) ? Expected::closed : Expected::open;
    }

    static bool parts(Expected one, Expected other) {
        return one != other && one != Expected::either && other != Expected::either;
    }

    /// Pairs of suspects that a reading tells apart and none before it did.
    std::size_t parted(const Expectations& sides) const {
        std::size_t pairs = 0;
        for (std::size_t c = 0; c < sides.size(); ++c) {
            for (std::size_t d = c + 1; d < sides.size(); ++d) {
                const bool is_new = apart_[c * sides.size() + d] == 0;
                pairs += is_new && parts(sides[c], sides[d]) ? 1 : 0;
            }
        }
        return pairs;
    }

    void part_by_sites() {
        const std::vector<std::size_t> sites = telling_sites();
        while (next_.size() < most_next) {
            std::size_t best_score = 0;
            std::pair<std::size_t, std::size_t> best{0, 0};
            for (std::size_t i = 0; i < sites.size(); ++i) {
                for (std::size_t k = i + 1; k < sites.size(); ++k) {
                    const std::size_t score = parted(sides(sites[i], sites[k]));
                    if (score <= best_score) continue;
                    if (inquiry_.is_measured(point(sites[i]), point(sites[k]))) continue;
                    best_score = score;
                    best = {sites[i], sites[k]};
                }
            }
            if (best_score == 0) return;
            take(point(best.first), point(best.second), sides(best.first, best.second), {});
        }
    }

    void part_by_ribbons() {
        for (std::size_t r = 0; r < bench_.design.ribbons.size(); ++r) {
            const int count = bench_.design.ribbons[r].conductors;
            for (int n = 1; n <= count; ++n) {
                const Point from = bench_.wiring.point_of(r, End::a, ConductorNumber(n));
                const Point to = bench_.wiring.point_of(r, End::b, ConductorNumber(n));
                part_alone(r, from, to);
                if (n == count) continue;
                part_alone(r, from, bench_.wiring.point_of(r, End::a, ConductorNumber(n + 1)));
            }
        }
    }

    /// A reading on a ribbon that is out of its seats.
    void part_alone(std::size_t ribbon, Point one, Point other) {
        if (next_.size() == most_next || inquiry_.is_measured(one, other)) return;
        Expectations sides(names_.size());
        for (std::size_t c = 0; c < sides.size(); ++c)
            sides[c] = side_alone(suspects_[c], one, other);
        if (parted(sides) > 0) take(one, other, sides, bench_.design.ribbons[ribbon].name);
    }

    /// What the reading would be under each of the faults that are told as one suspect.
    Expected side_alone(const Suspect& suspect, Point one, Point other) const {
        std::vector<bool> closed;
        for (const std::size_t first : suspect.faults) {
            if (suspect.second.empty()) {
                closed.push_back(is_closed_alone({&bench_.faults[first]}, one, other));
            }
            for (const std::size_t second : suspect.second) {
                closed.push_back(
                    is_closed_alone({&bench_.faults[first], &bench_.faults[second]}, one, other));
            }
        }
        if (closed.empty()) closed.push_back(is_closed_alone({}, one, other));
        const auto count = std::ranges::count(closed, true);
        if (count == 0) return Expected::open;
        return count == std::ssize(closed) ? Expected::closed : Expected::either;
    }

    /// Conductors are straight but for what the faults did to this ribbon.
    bool is_closed_alone(const std::vector<const Fault*>& faults, Point one, Point other) const {
        bool straight = true;
        for (const Fault* fault : faults) {
            for (const std::uint32_t link : fault->change.cut) {
                const Link& cut = bench_.wiring.links()[link];
                if (std::minmax(cut.one, cut.other) == std::minmax(one, other)) straight = false;
            }
            for (const auto& [from, to] : fault->change.added) {
                if (std::minmax(from, to) == std::minmax(one, other)) return true;
            }
        }
        const auto is_link = [&](const Link& link) {
            return link.kind == LinkKind::conductor &&
                   std::minmax(link.one, link.other) == std::minmax(one, other);
        };
        return straight && std::ranges::any_of(bench_.wiring.links(), is_link);
    }

    void take(Point from, Point to, const Expectations& sides, const std::string& alone) {
        NextReading next;
        next.from = inquiry_.name(from);
        next.to = inquiry_.name(to);
        next.alone = alone;
        for (std::size_t c = 0; c < sides.size(); ++c) {
            if (sides[c] != Expected::open) next.if_closed.push_back(c + 1);
            if (sides[c] != Expected::closed) next.if_open.push_back(c + 1);
            for (std::size_t d = c + 1; d < sides.size(); ++d) {
                if (parts(sides[c], sides[d])) apart_[c * sides.size() + d] = 1;
            }
            const bool told =
                std::ranges::find(next.tells_apart, names_[c]) != next.tells_apart.end();
            if (!told && sides[c] != Expected::either) next.tells_apart.push_back(names_[c]);
        }
        next_.push_back(std::move(next));
    }

    const Inquiry& inquiry_;
    const Bench& bench_;
    const std::vector<Suspect>& suspects_;
    const std::vector<std::string>& names_;
    std::vector<char> apart_;  ///< by two suspects, the earlier first: whether told apart
    std::vector<NextReading> next_;
};

}  // namespace

std::vector<NextReading> readings_to_part(const Inquiry& inquiry,
                                          const std::vector<Suspect>& suspects,
                                          const std::vector<std::string>& names) {
    Parter parter(inquiry, suspects, names);
    std::vector<NextReading> next = parter.by_sites();
    if (next.empty() && has_devices(inquiry.readings)) {
        next = device_readings_to_part(inquiry, suspects, names);
    }
    return next.empty() ? parter.by_ribbons() : next;
}

}  // namespace pinfold
