#include <algorithm>
#include <set>

#include "design/arrival.hpp"
#include "design/forest.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Builds a Wiring, step by step.
class Tracer {
public:
    explicit Tracer(const Design& design) : design_(design) {}

    Wiring run() {
        number_points();
        link_joins();
        link_seats();
        link_copper();
        link_leads();
        const Neighbours neighbours(wiring_.piece_.size(), wiring_.links_);
        const Forest forest(wiring_.piece_.size(), neighbours);
        wiring_.piece_ = forest.piece_of();
        gather_device_ports();
        gather_device_contacts(forest.pieces());
        follow_promises(forest, neighbours);
        return std::move(wiring_);
    }

private:
    void number_points() {
        Point next = 0;
        wiring_.first_of_port_.resize(design_.boards.size());
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            for (std::size_t p = 0; p < design_.boards[b].ports.size(); ++p) {
                wiring_.first_of_port_[b].push_back(next);
                wiring_.ports_.push_back({b, p});
                wiring_.port_points_.push_back(next);
                next += static_cast<Point>(design_.boards[b].ports[p].contacts.size());
            }
        }
        for (const Ribbon& ribbon : design_.ribbons) {
            wiring_.first_of_ribbon_.push_back(next);
            wiring_.conductors_.push_back(ribbon.conductors);
            next += 2 * static_cast<Point>(ribbon.conductors);
        }
        wiring_.first_net_ = next;
        for (const Board& board : design_.boards) next += static_cast<Point>(board.nets.size());
        wiring_.piece_.resize(next);
        wiring_.links_.reserve(2 * static_cast<std::size_t>(next));
    }

    void link(Point one, Point other, LinkKind kind, std::size_t place) {
        wiring_.links_.push_back({one, other, static_cast<std::uint32_t>(place), kind});
    }

    /// A plug meets its receptacle label to label; a flipped one row A to row B.
    void link_joins() {
        for (std::size_t j = 0; j < design_.joins.size(); ++j) {
            const PortJoin& join = design_.joins[j];
            const Port& a = design_.port(join.a);
            const Port& b = design_.port(join.b);
            const std::size_t count = std::min(a.contacts.size(), b.contacts.size());
            for (std::size_t i = 0; i < count; ++i) {
                const std::size_t other = join.flipped ? flipped_place(b, a.contacts[i].label) : i;
                if (other >= b.contacts.size()) continue;
                if (a.contacts[i].absent || b.contacts[other].absent) continue;
                link(wiring_.point_of(ContactRef{join.a, i}),
                     wiring_.point_of(ContactRef{join.b, other}), LinkKind::join, j);
            }
        }
    }

    static std::size_t flipped_place(const Port& port, const std::string& label) {
        const auto found =
            std::ranges::find(port.contacts, flipped_label(label), &PortContact::label);
        return static_cast<std::size_t>(found - port.contacts.begin());
    }

    void link_seats() {
        wiring_.ends_ = ribbon_ends(design_);
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) {
            wiring_.seatings_.push_back(seating_of(design_, r, wiring_.ends_[r]));
            for (int n = 1; n <= design_.ribbons[r].conductors; ++n) {
                link_conductor(r, ConductorNumber(n));
            }
        }
    }

    void link_conductor(std::size_t ribbon, ConductorNumber conductor) {
        const Point end_a = wiring_.point_of(ribbon, End::a, conductor);
        const Point end_b = wiring_.point_of(ribbon, End::b, conductor);
        link(end_a, end_b, LinkKind::conductor, ribbon);
        const RibbonEnds& ends = wiring_.ends_[ribbon];
        if (const auto contact = wiring_.contact_of(design_, ribbon, End::a, conductor)) {
            link(wiring_.point_of(*contact), end_a, LinkKind::seat, *ends.a);
        }
        if (const auto contact = wiring_.contact_of(design_, ribbon, End::b, conductor)) {
            link(wiring_.point_of(*contact), end_b, LinkKind::seat, *ends.b);
        }
    }

    void link_copper() {
        Point first_net = wiring_.first_net_;
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            const Board& board = design_.boards[b];
            for (std::size_t p = 0; p < board.ports.size(); ++p) {
                Point point = wiring_.first_of_port_[b][p];
                for (const PortContact& contact : board.ports[p].contacts) {
                    if (contact.net) {
                        link(point, first_net + static_cast<Point>(*contact.net), LinkKind::copper,
                             b);
                    }
                    ++point;
                }
            }
            first_net += static_cast<Point>(board.nets.size());
        }
    }

    void link_leads() {
        for (std::size_t i = 0; i < design_.leads.size(); ++i) {
            link(wiring_.point_of(design_.leads[i].from), wiring_.point_of(design_.leads[i].to),
                 LinkKind::lead, i);
        }
    }

    void gather_device_contacts(std::uint32_t pieces) {
        std::vector<std::size_t>& first = wiring_.device_first_;
        first.assign(pieces + 1, 0);
        for_device_contacts(
            [&](const ContactRef&, Point point) { ++first[wiring_.piece_[point] + 1]; });
        for (std::size_t i = 1; i < first.size(); ++i) first[i] += first[i - 1];
        wiring_.device_contacts_.resize(first.back());
        std::vector<std::size_t> next(first.begin(), first.end() - 1);
        for_device_contacts([&](const ContactRef& contact, Point point) {
            const std::uint32_t piece = wiring_.piece_[point];
            wiring_.device_contacts_[next[piece]++] = contact;
        });
    }

    /// Where signals start and end: the ports of devices, and those of boards that a promise names.
    void gather_device_ports() {
        std::vector<PortRef> promised;
        for (const Carry& carry : design_.carries) {
            promised.insert(promised.end(), {carry.from, carry.to});
        }
        std::ranges::sort(promised);
        for (const PortRef port : wiring_.ports_) {
            if (design_.boards[port.board].is_device ||
                std::ranges::binary_search(promised, port)) {
                device_ports_.push_back(port);
            }
        }
    }

    template <class Visit>
    void for_device_contacts(const Visit& visit) const {
        for (const PortRef port : device_ports_) {
            Point point = wiring_.point_of(ContactRef{port, 0});
            for (std::size_t i = 0; i < design_.port(port).contacts.size(); ++i) {
                visit(ContactRef{port, i}, point++);
            }
        }
    }

    void follow_promises(const Forest& forest, const Neighbours& neighbours) {
        wiring_.wires_.assign(forest.pieces(), std::nullopt);
        const Arrivals arrivals(design_, wiring_, forest.pieces());
        for (std::size_t c = 0; c < design_.carries.size(); ++c) {
            const auto first = static_cast<std::ptrdiff_t>(wiring_.passes_.size());
            for (const Promise& promise : promises_of(design_, c)) {
                Pass pass;
                pass.carry = c;
                pass.signal = promise.signal;
                pass.role = promise.role;
                pass.from = promise.from;
                pass.to = promise.to;
                arrivals.arrive(promise, pass);
                const Point from = wiring_.point_of(pass.from);
                pass.hops = hops(forest, neighbours, from, pass.reached);
                label(wiring_.piece_[from], promise, c);
                wiring_.passes_.push_back(std::move(pass));
            }
            drop_spare_contacts(first);
        }
        for (const std::uint32_t piece : mixed_) wiring_.wires_[piece].reset();
    }

    /// A signal on two contacts of a port, such as D+ of USB Type-C, needs one way there only;
    /// grounds and supplies need all of theirs. `first` is where the passes of the carry begin.
    void drop_spare_contacts(std::ptrdiff_t first) {
        std::vector<Pass>& passes = wiring_.passes_;
        const auto is_open = [](const Pass& pass) { return pass.state == State::open; };
        if (std::none_of(passes.begin() + first, passes.end(), is_open)) return;
        std::set<std::size_t> arrived;
        for (auto pass = passes.begin() + first; pass != passes.end(); ++pass) {
            if (!is_open(*pass)) arrived.insert(pass->signal);
        }
        const auto spare = std::remove_if(passes.begin() + first, passes.end(), [&](const Pass& p) {
            return is_open(p) && !is_ground(p.role) && p.role != Role::supply &&
                   arrived.contains(p.signal);
        });
        passes.erase(spare, passes.end());
    }

    /// Notes what a piece carries; two signals, or a ground and a signal, leave it unlabelled.
    void label(std::uint32_t piece, const Promise& promise, std::size_t carry) {
        std::optional<Wire>& wire = wiring_.wires_[piece];
        if (!wire) {
            wire = Wire{carry, promise.signal};
            return;
        }
        const Interface& near =
            *design_.interface_of(design_.port(design_.carries[wire->carry].from));
        const Role role = near.signals[wire->signal].role;
        const bool grounds = is_ground(role) && is_ground(promise.role);
        const bool supplies = role == Role::supply && promise.role == Role::supply;
        const bool same = wire->carry == carry && wire->signal == promise.signal;
        if (!grounds && !supplies && !same) mixed_.insert(piece);
    }

    std::vector<Point> hops(const Forest& forest, const Neighbours& neighbours, Point from,
                            const std::optional<ContactRef>& reached) const {
        std::vector<Point> path = reached ? forest.path(from, wiring_.point_of(*reached))
                                          : forest.path(from, furthest(from, neighbours));
        std::erase_if(path, [&](Point point) { return point >= wiring_.first_net_; });
        return path;
    }

    /// Where an open signal ends: the last point met going outwards. Looks at a bounded number of
    /// points, so that a great open ground costs no more than a signal.
    static Point furthest(Point from, const Neighbours& neighbours) {
        constexpr std::size_t most_points = 64;
        std::vector<Point> queue{from};
        for (std::size_t i = 0; i < queue.size() && queue.size() < most_points; ++i) {
            for (const Point next : neighbours.of(queue[i])) {
                if (queue.size() == most_points) break;
                if (std::ranges::find(queue, next) == queue.end()) queue.push_back(next);
            }
        }
        return queue.back();
    }

    const Design& design_;
    Wiring wiring_;
    std::vector<PortRef> device_ports_;
    std::set<std::uint32_t> mixed_;  ///< pieces that carry what should be apart
};

Wiring trace(const Design& design) { return Tracer(design).run(); }

}  // namespace pinfold
