#include "check/feed.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>
#include <set>

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
    std::uint32_t system = 0;
};

/// One supply of one promise, before anything is solved.
struct Load {
    bool forward = true;  ///< the near port gives, the far port takes
    Way out, back;
    Amperes current;
};

/// What lies on one plane: the grounds of a device, or one supply's contacts on one port.
using Plane = std::pair<std::size_t, std::size_t>;

std::optional<Plane> plane_of(const Design& design, const ContactRef& contact) {
    if (!design.boards[contact.port.board].is_device) return std::nullopt;
    const Signal* signal = design.signal_of(contact);
    const bool ground = signal && is_ground(signal->role);
    return Plane{contact.port.board, ground ? 0 : 1 + contact.port.port};
}

/// The pieces that hang together through the planes of devices, the first one included.
std::set<std::uint32_t> system_of(const Design& design, const Wiring& wiring,
                                  std::uint32_t first) {
    std::set<std::uint32_t> pieces{first};
    std::vector<std::uint32_t> queue{first};
    std::set<Plane> seen;
    while (!queue.empty()) {
        const std::uint32_t piece = queue.back();
        queue.pop_back();
        for (const ContactRef& contact : wiring.device_contacts(piece)) {
            const std::optional<Plane> plane = plane_of(design, contact);
            if (!plane || plane->second != 0 || !seen.insert(*plane).second) continue;
            const Board& device = design.boards[contact.port.board];
            for (std::size_t p = 0; p < device.ports.size(); ++p) {
                for (std::size_t i = 0; i < device.ports[p].contacts.size(); ++i) {
                    const ContactRef other{{contact.port.board, p}, i};
                    if (plane_of(design, other) != plane) continue;
                    const std::uint32_t next = wiring.piece_of(wiring.point_of(other));
                    if (pieces.insert(next).second) queue.push_back(next);
                }
            }
        }
    }
    return pieces;
}

/// The points of one system as nodes of a network: copper joins its contacts without resistance, a
/// plane its contacts.
class SystemNetwork {
public:
    SystemNetwork(const Design& design, const Wiring& wiring,
                  const std::set<std::uint32_t>& pieces, const std::vector<std::size_t>& links)
        : design_(design), wiring_(wiring) {
        for (const std::uint32_t piece : pieces) {
            for (const ContactRef& contact : wiring.device_contacts(piece)) {
                const std::optional<Plane> plane = plane_of(design, contact);
                if (plane) keys_[wiring.point_of(contact)] = Key{1, plane->first, plane->second};
            }
        }
        for (const std::size_t place : links) {
            const Link& link = wiring.links()[place];
            if (link.kind == LinkKind::copper) keys_[link.one] = Key{2, link.other, 0};
        }
        for (const std::size_t place : links) {
            const Link& link = wiring.links()[place];
            if (link.kind == LinkKind::copper) continue;
            resistors_.push_back({node_of(link.one), node_of(link.other), resistance_of(link)});
            resistor_links_.push_back(place);
        }
    }

    void inject(Point point, Amperes current) {
        injections_.push_back({node_of(point), current});
    }

    void solve() { solution_ = solve_network(nodes_.size(), resistors_, injections_); }

    Volts voltage(Point point) { return solution_.voltages[node_of(point)]; }

    void add_loads(std::vector<LinkLoad>& loads) const {
        for (std::size_t i = 0; i < resistors_.size(); ++i) {
            loads.push_back({resistor_links_[i], solution_.currents[i]});
        }
    }

private:
    using Key = std::array<std::size_t, 3>;

    std::size_t node_of(Point point) {
        const auto merged = keys_.find(point);
        const Key key = merged == keys_.end() ? Key{0, point, 0} : merged->second;
        return nodes_.try_emplace(key, nodes_.size()).first->second;
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
    std::map<Point, Key> keys_;
    std::map<Key, std::size_t> nodes_;
    std::vector<Resistor> resistors_;
    std::vector<std::size_t> resistor_links_;
    std::vector<Injection> injections_;
    NetworkSolution solution_;
};

/// Collects the loads, then solves each system once with all of them.
class FeedSolver {
public:
    FeedSolver(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    Feeds solve() {
        gather_loads();
        gather_systems();
        for (auto& [first, system] : systems_) {
            SystemNetwork network(design_, wiring_, system.pieces, system.links);
            for (const std::size_t i : system.loads) inject(loads_[i], first, network);
            network.solve();
            for (const std::size_t i : system.loads) read_drops(i, first, network);
            network.add_loads(feeds_.loads);
        }
        for (Feed& feed : feeds_.feeds) {
            if (feed.given) feed.arriving = *feed.given - feed.drop_out - feed.drop_back;
        }
        return std::move(feeds_);
    }

private:
    struct System {
        std::set<std::uint32_t> pieces;
        std::vector<std::size_t> links;
        std::set<std::size_t> loads;
    };

    void gather_loads() {
        std::map<std::size_t, const Pass*> grounds;
        for (const Pass& pass : wiring_.passes()) {
            if (is_ground(pass.role) && pass.state == State::good) {
                grounds.try_emplace(pass.carry, &pass);
            }
        }
        std::set<std::pair<std::size_t, std::size_t>> done;
        for (const Pass& pass : wiring_.passes()) {
            if (pass.role != Role::supply || pass.state != State::good) continue;
            if (!grounds.contains(pass.carry)) continue;
            if (!done.insert({pass.carry, pass.signal}).second) continue;
            gather_load(pass, *grounds.at(pass.carry));
        }
    }

    void gather_load(const Pass& pass, const Pass& ground) {
        const Carry& carry = design_.carries[pass.carry];
        const Interface* near = design_.interface_of(design_.port(carry.from));
        const Signal& signal = near->signals[pass.signal];
        const Supply* window = near->supply_of(pass.signal);
        const auto current =
            carry.current ? carry.current : (window ? window->current : std::nullopt);
        if (!current) {
            feeds_.remarks.push_back(
                {Severity::note, "current-missing",
                 fmt::format("'{}' carries {}, but nobody says how much current it draws; give "
                             "'current'",
                             carry.name, signal.name),
                 carry.at, {}, {carry.name}, {}});
            return;
        }
        Load load;
        load.forward = signal.direction != Direction::back;
        load.out = {wiring_.point_of(pass.from), wiring_.point_of(*pass.reached)};
        load.back = {wiring_.point_of(ground.from), wiring_.point_of(*ground.reached)};
        load.current = *current;
        loads_.push_back(load);

        Feed feed{pass.carry, signal.name, *current, {}, {}, {}, {}, {}, {}};
        feed.given = carry.voltage ? carry.voltage
                                   : (window ? window->least_at_source : std::nullopt);
        feed.least = carry.least ? carry.least : (window ? window->least_at_sink : std::nullopt);
        if (window && !carry.least) feed.window_source = window->source;
        feeds_.feeds.push_back(std::move(feed));
    }

    void gather_systems() {
        std::map<std::uint32_t, std::uint32_t> first_of;
        for (std::size_t i = 0; i < loads_.size(); ++i) {
            for (Way* way : {&loads_[i].out, &loads_[i].back}) {
                const std::uint32_t piece = wiring_.piece_of(way->near);
                if (!first_of.contains(piece)) {
                    const std::set<std::uint32_t> pieces = system_of(design_, wiring_, piece);
                    for (const std::uint32_t each : pieces) first_of[each] = *pieces.begin();
                    systems_[*pieces.begin()].pieces = pieces;
                }
                way->system = first_of.at(piece);
                systems_.at(way->system).loads.insert(i);
            }
        }
        for (std::size_t i = 0; i < wiring_.links().size(); ++i) {
            const auto found = first_of.find(wiring_.piece_of(wiring_.links()[i].one));
            if (found != first_of.end()) systems_.at(found->second).links.push_back(i);
        }
    }

    /// Current enters the supply at its giver and leaves at its taker; in the ground the other way.
    void inject(const Load& load, std::uint32_t system, SystemNetwork& network) const {
        const Amperes forward = load.forward ? load.current : -1.0 * load.current;
        if (load.out.system == system) {
            network.inject(load.out.near, forward);
            network.inject(load.out.far, -1.0 * forward);
        }
        if (load.back.system == system) {
            network.inject(load.back.far, forward);
            network.inject(load.back.near, -1.0 * forward);
        }
    }

    void read_drops(std::size_t i, std::uint32_t system, SystemNetwork& network) {
        const Load& load = loads_[i];
        const double sign = load.forward ? 1.0 : -1.0;
        if (load.out.system == system) {
            feeds_.feeds[i].drop_out =
                sign * (network.voltage(load.out.near) - network.voltage(load.out.far));
        }
        if (load.back.system == system) {
            feeds_.feeds[i].drop_back =
                sign * (network.voltage(load.back.far) - network.voltage(load.back.near));
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    std::vector<Load> loads_;
    std::map<std::uint32_t, System> systems_;
    Feeds feeds_;
};

/// A rating when some of all places carry current: the whole of it when one does, `all_loaded` of
/// it when all do, in proportion between; common practice.
Amperes rating_when_loaded(Amperes rating, double all_loaded, std::size_t loaded,
                           std::size_t places) {
    if (places < 2 || loaded < 2) return rating;
    const double share =
        static_cast<double>(loaded - 1) / static_cast<double>(places - 1);
    return (1.0 - (1.0 - all_loaded) * share) * rating;
}

/// The most loaded link of a ribbon, a seat or a join, and how many there carry current.
struct Worst {
    std::optional<std::size_t> link;
    Amperes current;
    std::size_t loaded = 0;
};

class RatingCheck {
public:
    RatingCheck(const Design& design, const Wiring& wiring, const Feeds& feeds)
        : design_(design), wiring_(wiring), feeds_(feeds) {}

    Findings find() {
        std::map<std::pair<LinkKind, std::size_t>, Worst> worst;
        for (const LinkLoad& load : feeds_.loads) {
            const Link& link = wiring_.links()[load.link];
            const double amperes = std::abs(load.current.value());
            Worst& here = worst[{link.kind, link.place}];
            if (amperes >= 0.01) ++here.loaded;
            if (here.link && amperes <= here.current.value()) continue;
            here.link = load.link;
            here.current = Amperes(amperes);
        }
        for (const auto& [place, here] : worst) check(place.first, place.second, here);
        return std::move(findings_);
    }

private:
    void check(LinkKind kind, std::size_t place, const Worst& worst) {
        const Link& link = wiring_.links()[*worst.link];
        constexpr double usual_all_loaded = 0.7;  // of the rating; common practice
        if (kind == LinkKind::conductor) {
            const Ribbon& ribbon = design_.ribbons[place];
            const auto rating = design_.ribbon_types.at(ribbon.type).current;
            const auto places = static_cast<std::size_t>(ribbon.conductors);
            judge("conductor-current", rating, usual_all_loaded, places, worst, link.one,
                  ribbon.at);
        } else if (kind == LinkKind::seat) {
            const Port& port = design_.port(design_.seats[place].port);
            const ReceptacleType& type = design_.receptacle_types.at(port.ribbon->receptacle);
            const double all = type.all_loaded ? type.all_loaded->value() / 100.0 : usual_all_loaded;
            judge("contact-current", type.current, all, port.contacts.size(), worst, link.one,
                  port.at);
        } else if (kind == LinkKind::join) {
            const Port& port = design_.port(design_.joins[place].a);
            if (port.connector.empty()) return;
            judge("contact-current", design_.connectors.at(port.connector).current, 1.0,
                  port.contacts.size(), worst, link.one, port.at);
        }
    }

    void judge(const char* rule, std::optional<Amperes> rating, double all_loaded,
               std::size_t places, const Worst& worst, Point point, const Mark& at) {
        if (!rating) return;
        const Amperes most = rating_when_loaded(*rating, all_loaded, worst.loaded, places);
        if (worst.current <= most) return;
        const std::string name = wiring_.name_of(point, design_);
        findings_.push_back(
            {Severity::error, rule,
             fmt::format("{} carries {:.2f} A; with {} of {} carrying current its rating is "
                         "{:.2f} A",
                         name, worst.current.value(), worst.loaded, places, most.value()),
             at, {}, {name.substr(0, name.find('.')), name}, {}});
    }

    const Design& design_;
    const Wiring& wiring_;
    const Feeds& feeds_;
    Findings findings_;
};

void check_voltage(const Design& design, const Feed& feed, Findings& findings) {
    if (!feed.arriving || !feed.least || *feed.arriving >= *feed.least) return;
    const Carry& carry = design.carries[feed.carry];
    findings.push_back(
        {Severity::error, "supply-low",
         fmt::format("{} of '{}' arrives at {:.3f} V, {:.3f} V are needed: of {:.3f} V, {:.0f} mV "
                     "are lost on the way out and {:.0f} mV on the way back at {:.3f} A{}",
                     feed.supply, carry.name, feed.arriving->value(), feed.least->value(),
                     feed.given->value(), 1000.0 * feed.drop_out.value(),
                     1000.0 * feed.drop_back.value(), feed.current.value(),
                     feed.window_source.empty() ? std::string{}
                                                : fmt::format(" ({})", feed.window_source)),
         carry.at, {}, {carry.name, feed.supply}, {}});
}

/// Which ports give which supply, told by the promises.
class Givers {
public:
    explicit Givers(const Design& design) : design_(design) {
        for (const Carry& carry : design.carries) {
            if (carry.supply.empty()) {
                near_.insert(carry.from);
                far_.insert(carry.to);
            } else {
                feeds_.insert({carry.from, plain_name(carry.supply)});
            }
        }
    }

    bool gives(const ContactRef& contact) const {
        const Signal* signal = design_.signal_of(contact);
        if (!signal || signal->role != Role::supply) return false;
        if (signal->direction == Direction::outward) return true;
        if (feeds_.contains({contact.port, plain_name(signal->name)})) return true;
        if (near_.contains(contact.port)) return signal->direction == Direction::forward;
        return far_.contains(contact.port) && signal->direction == Direction::back;
    }

private:
    const Design& design_;
    std::set<PortRef> near_, far_;
    std::set<std::pair<PortRef, std::string>> feeds_;
};

}  // namespace

Feeds solve_feeds(const Design& design, const Wiring& wiring) {
    return FeedSolver(design, wiring).solve();
}

Findings check_feeds(const Design& design, const Wiring& wiring) {
    const Feeds feeds = solve_feeds(design, wiring);
    Findings findings = RatingCheck(design, wiring, feeds).find();
    for (const Feed& feed : feeds.feeds) check_voltage(design, feed, findings);
    findings.insert(findings.end(), feeds.remarks.begin(), feeds.remarks.end());
    return findings;
}

Findings check_givers(const Design& design, const Wiring& wiring) {
    const Givers givers(design);
    Findings findings;
    for (std::uint32_t piece = 0; piece < wiring.pieces(); ++piece) {
        std::map<PortRef, ContactRef> giving;
        for (const ContactRef& contact : wiring.device_contacts(piece)) {
            if (givers.gives(contact)) giving.try_emplace(contact.port, contact);
        }
        if (giving.size() < 2) continue;
        const ContactRef& one = giving.begin()->second;
        const ContactRef& other = std::next(giving.begin())->second;
        findings.push_back(
            {Severity::error, "supplies-joined",
             fmt::format("{} and {} both give a supply and are joined", name_of(design, one),
                         name_of(design, other)),
             design.contact(one).at,
             {{design.contact(other).at, "the other supply is here"}},
             {name_of(design, one.port), name_of(design, one), name_of(design, other)},
             {}});
    }
    return findings;
}

}  // namespace pinfold
