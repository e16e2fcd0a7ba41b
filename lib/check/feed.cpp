#include "check/feed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "check/supply_system.hpp"
#include "design/promise.hpp"
#include "physics/conductor.hpp"
#include "physics/network.hpp"

namespace pinfold {
namespace {

constexpr Celsius warm{60.0};
constexpr Ohms usual_contact{0.05};

/// One direction of a load: two points of one system.
struct Way {
    Point near = 0;  ///< at the promise's near port
    Point far = 0;
};

/// One supply of one promise, before anything is solved.
struct Load {
    bool forward = true;  ///< the near port gives, the far port takes
    Way out, back;
    Amperes current;
};

/// One system as a network of resistors.
class SystemNetwork {
public:
    /// `numbers` has room for every point; each belongs to one system.
    SystemNetwork(const Design& design, const Wiring& wiring, const SupplySystems& systems,
                  const SupplySystem& system, std::vector<std::uint32_t>& numbers)
        : design_(design),
          wiring_(wiring),
          systems_(systems),
          links_(system.links),
          numbers_(numbers) {
        resistors_.reserve(links_.size());
        for (const std::size_t place : links_) {
            const Link& link = wiring.links()[place];
            resistors_.push_back({node_of(link.one), node_of(link.other), resistance_of(link)});
        }
    }

    void inject(Point point, Amperes current) { injections_.push_back({node_of(point), current}); }

    void solve() { solution_ = solve_network(nodes_, resistors_, injections_); }

    Volts voltage(Point point) { return solution_.voltages[node_of(point)]; }

    void add_loads(std::vector<LinkLoad>& loads) const {
        for (std::size_t i = 0; i < resistors_.size(); ++i) {
            loads.push_back({links_[i], solution_.currents[i]});
        }
    }

private:
    /// Numbered from 0 as they are met; what is kept is one more, and 0 for not yet met.
    std::size_t node_of(Point point) {
        std::uint32_t& number = numbers_[systems_.node_of(point)];
        if (number == 0) number = static_cast<std::uint32_t>(++nodes_);
        return number - 1;
    }

    Ohms resistance_of(const Link& link) const {
        if (link.kind == LinkKind::conductor) {
            const Ribbon& ribbon = design_.ribbons[link.place];
            return dc_resistance(section_of(ribbon), ribbon.length, warm);
        }
        if (link.kind == LinkKind::lead) {
            const Lead& lead = design_.leads[link.place];
            return dc_resistance(lead.section, lead.length, warm);
        }
        if (link.kind == LinkKind::seat) {
            const Port& port = design_.port(design_.seats[link.place].port);
            return design_.receptacle_types.at(port.ribbon->receptacle)
                .contact_resistance.value_or(usual_contact);
        }
        const Port& port = design_.port(design_.joins[link.place].a);
        if (port.connector.empty()) return usual_contact;
        return design_.connectors.at(port.connector).contact_resistance.value_or(usual_contact);
    }

    SquareMillimetres section_of(const Ribbon& ribbon) const {
        const RibbonType& type = design_.ribbon_types.at(ribbon.type);
        if (!ribbon.thickness || !type.width) return type.section;
        return SquareMillimetres(ribbon.thickness->value() * type.width->value());
    }

    const Design& design_;
    const Wiring& wiring_;
    const SupplySystems& systems_;
    const std::vector<std::size_t>& links_;  ///< of the resistors
    std::vector<std::uint32_t>& numbers_;    ///< of the nodes, by point
    std::size_t nodes_ = 0;
    std::vector<Resistor> resistors_;
    std::vector<Injection> injections_;
    NetworkSolution solution_;
};

/// Collects the loads, then solves each system once with all of them.
class FeedSolver {
public:
    FeedSolver(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {
        for (const Carry& carry : design.carries) {
            const Interface* near = design.interface_of(design.port(carry.from));
            if (carry.supply.empty() || !near) continue;
            if (const auto supply = near->find(carry.supply)) {
                promised_apart_.insert({carry.from, carry.to, *supply});
            }
        }
    }

    Feeds solve() {
        gather_loads();
        const SupplySystems systems(design_, wiring_, near_points());
        const std::vector<std::vector<Current>> currents = currents_in(systems);
        std::vector<std::uint32_t> numbers(wiring_.points(), 0);
        for (std::size_t s = 0; s < systems.all().size(); ++s) {
            SystemNetwork network(design_, wiring_, systems, systems.all()[s], numbers);
            for (const Current& current : currents[s]) inject(current, network);
            network.solve();
            for (const Current& current : currents[s]) read_drop(current, network);
            network.add_loads(feeds_.loads);
        }
        for (Feed& feed : feeds_.feeds) {
            if (feed.given) feed.arriving = *feed.given - feed.drop_out - feed.drop_back;
        }
        return std::move(feeds_);
    }

private:
    /// One direction of one load, in one system.
    struct Current {
        std::size_t load = 0;
        bool is_back = false;
    };

    void gather_loads() {
        std::vector<const Pass*> grounds(design_.carries.size(), nullptr);
        std::vector<bool> promised(design_.carries.size(), false);
        for (const Pass& pass : wiring_.passes()) {
            if (!is_ground(pass.role)) continue;
            promised[pass.carry] = true;
            const bool arrives = pass.state == State::good;
            if (arrives && !grounds[pass.carry]) grounds[pass.carry] = &pass;
        }
        std::set<std::pair<std::size_t, std::size_t>> done;
        for (const Pass& pass : wiring_.passes()) {
            if (pass.role != Role::supply || pass.state != State::good) continue;
            if (!done.insert({pass.carry, pass.signal}).second) continue;
            if (is_promised_apart(pass)) continue;
            if (!promised[pass.carry]) {
                add_remark(Severity::error, "return-missing", pass,
                           "has no promised ground to return through");
            }
            if (!grounds[pass.carry]) continue;  // that it does not arrive is told already
            gather_load(pass, *grounds[pass.carry]);
        }
    }

    void add_remark(Severity severity, const char* rule, const Pass& pass, const char* text) {
        const Carry& carry = design_.carries[pass.carry];
        const Interface* near = design_.interface_of(design_.port(carry.from));
        const std::string& supply = near->signals[pass.signal].name;
        feeds_.remarks.push_back({severity,
                                  rule,
                                  fmt::format("{} of '{}' {}", supply, carry.name, text),
                                  carry.at,
                                  {},
                                  {carry.name, supply},
                                  {}});
    }

    /// Whether another promise speaks of this supply alone, with figures of its own.
    bool is_promised_apart(const Pass& pass) const {
        const Carry& carry = design_.carries[pass.carry];
        if (!carry.supply.empty()) return false;
        return promised_apart_.contains({carry.from, carry.to, pass.signal});
    }

    void gather_load(const Pass& pass, const Pass& ground) {
        const Carry& carry = design_.carries[pass.carry];
        const Interface* near = design_.interface_of(design_.port(carry.from));
        const Signal& signal = near->signals[pass.signal];
        const Supply* window = near->supply_of(pass.signal);
        const auto current =
            carry.current ? carry.current : (window ? window->current : std::nullopt);
        if (!current) {
            add_remark(Severity::note, "current-missing", pass,
                       "has no stated current, so load and drop were not checked; give 'current'");
            return;
        }
        Load load;
        load.forward = !carry.supply.empty() || signal.direction != Direction::back;
        load.out = {wiring_.point_of(pass.from), wiring_.point_of(*pass.reached)};
        load.back = {wiring_.point_of(ground.from), wiring_.point_of(*ground.reached)};
        load.current = *current;
        loads_.push_back(load);

        Feed feed;
        feed.carry = pass.carry;
        feed.supply = signal.name;
        feed.current = *current;
        feed.given =
            carry.voltage ? carry.voltage : (window ? window->least_at_source : std::nullopt);
        feed.least = carry.least ? carry.least : (window ? window->least_at_sink : std::nullopt);
        if (window && !carry.least) feed.window_source = window->source;
        if (window && carry.voltage) feed.most = window->most_at_sink;
        if (!feed.given || !feed.least) {
            add_remark(Severity::note, "voltage-missing", pass,
                       "has no stated window, so its drop was not judged; give 'voltage' and "
                       "'least'");
        }
        feeds_.feeds.push_back(std::move(feed));
    }

    std::vector<Point> near_points() const {
        std::vector<Point> points;
        for (const Load& load : loads_)
            points.insert(points.end(), {load.out.near, load.back.near});
        return points;
    }

    std::vector<std::vector<Current>> currents_in(const SupplySystems& systems) const {
        std::vector<std::vector<Current>> currents(systems.all().size());
        for (std::size_t i = 0; i < loads_.size(); ++i) {
            currents[systems.system_of(loads_[i].out.near)].push_back({i, false});
            currents[systems.system_of(loads_[i].back.near)].push_back({i, true});
        }
        return currents;
    }

    /// Current enters the supply at its giver and leaves at its taker; in the ground the other way.
    void inject(const Current& current, SystemNetwork& network) const {
        const Load& load = loads_[current.load];
        const Amperes forward = load.forward ? load.current : -1.0 * load.current;
        if (current.is_back) {
            network.inject(load.back.far, forward);
            network.inject(load.back.near, -1.0 * forward);
        } else {
            network.inject(load.out.near, forward);
            network.inject(load.out.far, -1.0 * forward);
        }
    }

    void read_drop(const Current& current, SystemNetwork& network) {
        const Load& load = loads_[current.load];
        Feed& feed = feeds_.feeds[current.load];
        const double sign = load.forward ? 1.0 : -1.0;
        if (current.is_back) {
            feed.drop_back =
                sign * (network.voltage(load.back.far) - network.voltage(load.back.near));
        } else {
            feed.drop_out = sign * (network.voltage(load.out.near) - network.voltage(load.out.far));
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    /// From, to and signal of the promises of a supply alone.
    std::set<std::tuple<PortRef, PortRef, std::size_t>> promised_apart_;
    std::vector<Load> loads_;
    Feeds feeds_;
};

}  // namespace

Feeds solve_feeds(const Design& design, const Wiring& wiring) {
    return FeedSolver(design, wiring).solve();
}

}  // namespace pinfold
