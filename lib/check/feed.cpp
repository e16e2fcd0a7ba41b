#include "check/feed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "base/groups.hpp"
#include "check/budget.hpp"
#include "check/link_resistance.hpp"

namespace pinfold {
namespace {

constexpr std::uint32_t no_node = static_cast<std::uint32_t>(-1);

std::vector<Point> giver_points(const FeedLoads& loads) {
    std::vector<Point> points;
    for (const FeedLoad& load : loads.loads) {
        points.insert(points.end(), {load.giver, load.giver_ground});
    }
    return points;
}

/// A value of a case, or what stands without one.
template <class T>
std::optional<T> in_case(const std::map<std::size_t, T>& values, std::size_t carry,
                         std::optional<T> otherwise) {
    const auto found = values.find(carry);
    return found == values.end() ? otherwise : std::optional(found->second);
}

/// The network of one part with the sources and loads of a case.
struct Posed {
    Network network;
    std::vector<FeedSource> sources;                ///< as in the network
    std::map<std::size_t, std::size_t> converters;  ///< by load, in the network's loads
};

}  // namespace

FeedNetworks::FeedNetworks(const Design& design, const Wiring& wiring)
    : loads_(gather_feed_loads(design, wiring)), ends_(loads_.loads.size()) {
    build(design, wiring);
    compare_voltages(design);
}

void FeedNetworks::build(const Design& design, const Wiring& wiring) {
    const SupplySystems systems(design, wiring, giver_points(loads_));
    Groups groups(systems.all().size());
    for (const FeedLoad& load : loads_.loads) {
        groups.join(systems.system_of(load.giver), systems.system_of(load.giver_ground));
    }
    std::vector<std::size_t> part_of(systems.all().size());
    std::vector<std::uint32_t> numbers(wiring.points(), no_node);
    const auto node_of = [&](Part& part, Point point) {
        std::uint32_t& number = numbers[systems.node_of(point)];
        if (number == no_node) number = static_cast<std::uint32_t>(part.nodes++);
        return std::size_t{number};
    };
    for (std::size_t s = 0; s < systems.all().size(); ++s) {
        const std::size_t first = groups.first_of(s);
        if (first == s) parts_.emplace_back();
        part_of[s] = first == s ? parts_.size() - 1 : part_of[first];
        Part& part = parts_[part_of[s]];
        for (const std::size_t place : systems.all()[s].links) {
            const Link& link = wiring.links()[place];
            part.links.push_back(place);
            const std::size_t one = node_of(part, link.one);
            part.resistors.push_back(
                {one, node_of(part, link.other), resistance_of(design, wiring, link)});
        }
    }
    for (std::size_t l = 0; l < ends_.size(); ++l) {
        const FeedLoad& load = loads_.loads[l];
        Ends& ends = ends_[l];
        ends.part = part_of[systems.system_of(load.giver)];
        Part& part = parts_[ends.part];
        part.loads.push_back(l);
        ends.giver = node_of(part, load.giver);
        ends.taker = node_of(part, load.taker);
        ends.giver_ground = node_of(part, load.giver_ground);
        ends.taker_ground = node_of(part, load.taker_ground);
    }
}

/// Tells promises that state different voltages for one supply of one port.
void FeedNetworks::compare_voltages(const Design& design) {
    std::map<std::array<std::size_t, 3>, std::size_t> first_at;  // by part, giver and its ground
    for (std::size_t l = 0; l < ends_.size(); ++l) {
        const FeedLoad& load = loads_.loads[l];
        const Carry& carry = design.carries[load.carry];
        if (!carry.voltage || load.in_budget) continue;
        const Ends& ends = ends_[l];
        const auto [at, is_new] =
            first_at.try_emplace({ends.part, ends.giver, ends.giver_ground}, load.carry);
        const Carry& first = design.carries[at->second];
        if (is_new || *carry.voltage == *first.voltage) continue;
        loads_.remarks.push_back(
            {Severity::warning,
             "voltages-differ",
             fmt::format("{} of '{}' is said to be {:.3f} V where it is given, '{}' says {:.3f} V; "
                         "the lower was taken for both",
                         load.supply, carry.name, carry.voltage->value(), first.name,
                         first.voltage->value()),
             carry.at,
             {},
             {carry.name, load.supply},
             {}});
    }
}

Feed FeedNetworks::feed_of(std::size_t place, const FeedCase& with) const {
    const FeedLoad& load = loads_.loads[place];
    Feed feed;
    feed.carry = load.carry;
    feed.supply = load.supply;
    feed.power = in_case(with.power, load.carry, load.power);
    feed.given = in_case(with.voltage, load.carry, load.given);
    if (load.in_budget && !feed.power) feed.power = Watts{};
    feed.current = feed.power ? Amperes{} : *load.current;
    feed.least = load.least;
    feed.most = load.most;
    feed.window_source = load.window_source;
    return feed;
}

Feeds FeedNetworks::solve(const FeedCase& with) const {
    Feeds feeds;
    feeds.feeds.resize(loads_.loads.size());
    for (std::size_t part = 0; part < parts_.size(); ++part) add(part, with, feeds);
    feeds.remarks = loads_.remarks;
    return feeds;
}

Feeds FeedNetworks::solve(std::size_t part, const FeedCase& with) const {
    Feeds feeds;
    feeds.feeds.resize(loads_.loads.size());
    add(part, with, feeds);
    Feeds of_part;
    for (const std::size_t l : parts_[part].loads) of_part.feeds.push_back(feeds.feeds[l]);
    of_part.sources = std::move(feeds.sources);
    of_part.loads = std::move(feeds.loads);
    return of_part;
}

void FeedNetworks::add(std::size_t place, const FeedCase& with, Feeds& feeds) const {
    const Part& part = parts_[place];
    Posed posed{{part.nodes, part.resistors, {}, {}, {}}, {}, {}};
    const auto open = with.open ? std::ranges::find(part.links, *with.open) : part.links.end();
    const auto opened = open - part.links.begin();
    if (open != part.links.end()) {
        posed.network.resistors.erase(posed.network.resistors.begin() + opened);
    }

    std::map<std::pair<std::size_t, std::size_t>, std::size_t> source_at;
    for (const std::size_t l : part.loads) {
        feeds.feeds[l] = feed_of(l, with);
        const Feed& feed = feeds.feeds[l];
        const Ends& ends = ends_[l];
        Network& network = posed.network;
        if (feed.given) {
            const auto [at, is_new] =
                source_at.try_emplace({ends.giver, ends.giver_ground}, network.sources.size());
            if (is_new) {
                network.sources.push_back({ends.giver, ends.giver_ground, *feed.given});
                posed.sources.push_back({feed.carry, {}, {}});
            }
            Volts& volts = network.sources[at->second].voltage;
            volts = std::min(volts, *feed.given);
        }
        if (feed.power && feed.power->value() > 0.0) {
            posed.converters[l] = network.loads.size();
            network.loads.push_back({ends.taker, ends.taker_ground, *feed.power});
            continue;
        }
        network.injections.push_back({ends.taker, -1.0 * feed.current});
        network.injections.push_back({ends.taker_ground, feed.current});
        if (feed.given) continue;
        network.injections.push_back({ends.giver, feed.current});
        network.injections.push_back({ends.giver_ground, -1.0 * feed.current});
    }

    const auto outcome = solve_network(posed.network);
    if (const auto* collapse = std::get_if<Collapse>(&outcome)) {
        for (const std::size_t l : part.loads) {
            Feed& feed = feeds.feeds[l];
            feed.settles = false;
            feed.deliverable = collapse->share * feed.power.value_or(Watts{});
        }
        return;
    }
    const auto& solution = std::get<NetworkSolution>(outcome);
    const std::vector<Volts>& volts = solution.voltages;
    for (const std::size_t l : part.loads) {
        Feed& feed = feeds.feeds[l];
        const Ends& ends = ends_[l];
        const auto converter = posed.converters.find(l);
        if (converter != posed.converters.end()) feed.current = solution.drawn[converter->second];
        feed.drop_out = volts[ends.giver] - volts[ends.taker];
        feed.drop_back = volts[ends.taker_ground] - volts[ends.giver_ground];
        if (feed.given) feed.arriving = volts[ends.taker] - volts[ends.taker_ground];
    }
    for (std::size_t s = 0; s < posed.sources.size(); ++s) {
        posed.sources[s].voltage = posed.network.sources[s].voltage;
        posed.sources[s].current = solution.given[s];
        feeds.sources.push_back(posed.sources[s]);
    }
    std::size_t solved = 0;
    for (std::size_t i = 0; i < part.links.size(); ++i) {
        const bool is_open = open != part.links.end() && static_cast<std::ptrdiff_t>(i) == opened;
        const Amperes current = is_open ? Amperes{} : solution.currents[solved++];
        feeds.loads.push_back({part.links[i], current, part.resistors[i].resistance});
    }
}

bool FeedNetworks::holds_together(std::size_t place, std::size_t open) const {
    const Part& part = parts_[place];
    Groups groups(part.nodes);
    for (std::size_t i = 0; i < part.links.size(); ++i) {
        if (part.links[i] == open) continue;
        groups.join(part.resistors[i].one, part.resistors[i].other);
    }
    return std::ranges::all_of(part.loads, [&](std::size_t l) {
        const Ends& ends = ends_[l];
        return groups.joined(ends.giver, ends.taker) &&
               groups.joined(ends.giver_ground, ends.taker_ground);
    });
}

std::vector<LinkLoad> FeedNetworks::unit_flow(std::size_t load) const {
    const Ends& ends = ends_[load];
    const Part& part = parts_[ends.part];
    const Amperes one(1.0);
    Network network{part.nodes, part.resistors, {}, {}, {}};
    network.injections = {{ends.giver, one},
                          {ends.taker, -1.0 * one},
                          {ends.taker_ground, one},
                          {ends.giver_ground, -1.0 * one}};
    const auto solution = std::get<NetworkSolution>(solve_network(network));
    std::vector<LinkLoad> flow;
    for (std::size_t i = 0; i < part.links.size(); ++i) {
        flow.push_back({part.links[i], solution.currents[i], part.resistors[i].resistance});
    }
    return flow;
}

Feeds solve_feeds(const Design& design, const Wiring& wiring) {
    const FeedNetworks networks(design, wiring);
    return networks.solve(worst_case(design, networks));
}

}  // namespace pinfold
