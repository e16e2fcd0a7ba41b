#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>

#include "design/promise.hpp"
#include "design/wiring.hpp"

namespace pinfold {
namespace {

constexpr Point nowhere = std::numeric_limits<Point>::max();

/// The neighbours of every point, in one array.
struct Neighbours {
    std::vector<std::size_t> first;
    std::vector<Point> all;

    Neighbours(std::size_t points, const std::vector<Link>& links) : first(points + 1, 0) {
        for (const Link& link : links) {
            ++first[link.one + 1];
            ++first[link.other + 1];
        }
        for (std::size_t i = 1; i < first.size(); ++i) first[i] += first[i - 1];
        all.resize(first.back());
        std::vector<std::size_t> next(first.begin(), first.end() - 1);
        for (const Link& link : links) {
            all[next[link.one]++] = link.other;
            all[next[link.other]++] = link.one;
        }
    }
    std::span<const Point> of(Point point) const {
        return {all.data() + first[point], first[point + 1] - first[point]};
    }
};

/// A tree over each connected piece: every point knows its parent and its depth.
struct Forest {
    std::vector<std::uint32_t> piece;
    std::vector<Point> parent;
    std::vector<std::uint32_t> depth;
    std::uint32_t pieces = 0;

    Forest(std::size_t points, const Neighbours& neighbours)
        : piece(points, nowhere), parent(points, nowhere), depth(points, 0) {
        std::vector<Point> queue;
        for (Point root = 0; root < points; ++root) {
            if (piece[root] != nowhere) continue;
            grow(root, neighbours, queue);
            ++pieces;
        }
    }

    /// The points from one to another along the tree, both included.
    std::vector<Point> path(Point one, Point other) const {
        std::vector<Point> head, tail;
        while (one != other) {
            if (depth[one] >= depth[other]) {
                head.push_back(one);
                one = parent[one];
            } else {
                tail.push_back(other);
                other = parent[other];
            }
        }
        head.push_back(one);
        head.insert(head.end(), tail.rbegin(), tail.rend());
        return head;
    }

private:
    void grow(Point root, const Neighbours& neighbours, std::vector<Point>& queue) {
        queue.assign(1, root);
        piece[root] = pieces;
        for (std::size_t i = 0; i < queue.size(); ++i) {
            for (const Point next : neighbours.of(queue[i])) {
                if (piece[next] != nowhere) continue;
                piece[next] = pieces;
                parent[next] = queue[i];
                depth[next] = depth[queue[i]] + 1;
                queue.push_back(next);
            }
        }
    }
};

}  // namespace

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
        wiring_.piece_ = forest.piece;
        gather_device_contacts(forest.pieces);
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
        wiring_.links_.push_back({one, other, kind, place});
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
                        link(point, first_net + static_cast<Point>(*contact.net),
                             LinkKind::copper, b);
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
        for_device_contacts([&](const ContactRef&, Point point) {
            ++first[wiring_.piece_[point] + 1];
        });
        for (std::size_t i = 1; i < first.size(); ++i) first[i] += first[i - 1];
        wiring_.device_contacts_.resize(first.back());
        std::vector<std::size_t> next(first.begin(), first.end() - 1);
        only_grounds_.assign(pieces, true);
        for_device_contacts([&](const ContactRef& contact, Point point) {
            const std::uint32_t piece = wiring_.piece_[point];
            wiring_.device_contacts_[next[piece]++] = contact;
            const Signal* signal = design_.signal_of(contact);
            only_grounds_[piece] = only_grounds_[piece] && signal && is_ground(signal->role);
        });
    }

    /// Contacts where signals start and end: those of devices, and of a board's port that a promise
    /// names.
    template <class Visit>
    void for_device_contacts(const Visit& visit) const {
        std::set<PortRef> promised;
        for (const Carry& carry : design_.carries) promised.insert({carry.from, carry.to});
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            for (std::size_t p = 0; p < design_.boards[b].ports.size(); ++p) {
                if (!design_.boards[b].is_device && !promised.contains({b, p})) continue;
                Point point = wiring_.first_of_port_[b][p];
                for (std::size_t i = 0; i < design_.boards[b].ports[p].contacts.size(); ++i) {
                    visit(ContactRef{{b, p}, i}, point++);
                }
            }
        }
    }

    void follow_promises(const Forest& forest, const Neighbours& neighbours) {
        wiring_.wires_.assign(forest.pieces, std::nullopt);
        for (std::size_t c = 0; c < design_.carries.size(); ++c) {
            const auto first = static_cast<std::ptrdiff_t>(wiring_.passes_.size());
            for (const Promise& promise : promises_of(design_, c)) {
                Pass pass;
                pass.carry = c;
                pass.signal = promise.signal;
                pass.role = promise.role;
                pass.from = promise.from;
                pass.to = promise.to;
                arrive(promise, pass);
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
        std::set<std::size_t> arrived;
        for (auto pass = passes.begin() + first; pass != passes.end(); ++pass) {
            if (pass->state != State::open) arrived.insert(pass->signal);
        }
        const auto spare = std::remove_if(passes.begin() + first, passes.end(), [&](const Pass& p) {
            return p.state == State::open && !is_ground(p.role) && p.role != Role::supply &&
                   arrived.contains(p.signal);
        });
        passes.erase(spare, passes.end());
    }

    /// Where a promised signal arrives and what that makes of it.
    void arrive(const Promise& promise, Pass& pass) const {
        const Point from = wiring_.point_of(promise.from);
        const std::uint32_t piece = wiring_.piece_[from];
        if (is_ground(promise.role) && only_grounds_[piece]) return arrive_at_ground(from, pass);
        bool right = false;
        bool half = false;
        std::optional<ContactRef> foreign;
        bool shorted = false;
        for (const ContactRef& met : wiring_.device_contacts(piece)) {
            const Meeting meeting = meet(design_, promise, met);
            if (meeting == Meeting::clash) {
                shorted = true;
                break;
            }
            if (met.port != promise.to.port || meeting == Meeting::nothing) continue;
            const bool better = meeting == Meeting::wanted && (!right || met == promise.to);
            if (better || !pass.reached) pass.reached = met;
            right = right || meeting == Meeting::wanted;
            half = half || meeting == Meeting::other_half;
            if (meeting == Meeting::wanted) continue;
            if (foreign && !are_alike(*foreign, met)) shorted = true;
            foreign = met;
        }
        if (shorted && wiring_.joined(from, wiring_.point_of(promise.to))) {
            pass.reached = promise.to;
        }
        if (shorted || (right && foreign)) {
            pass.state = State::shorted;
        } else if (right) {
            pass.state = State::good;
        } else if (!foreign) {
            pass.state = State::open;
        } else {
            pass.state = half && other_half_comes_here(promise) ? State::swapped : State::wrong;
        }
    }

    /// Whether two contacts bear one signal; all grounds are alike.
    bool are_alike(const ContactRef& one, const ContactRef& other) const {
        const Signal* here = design_.signal_of(one);
        const Signal* there = design_.signal_of(other);
        if (!here || !there) return false;
        return here == there || (is_ground(here->role) && is_ground(there->role));
    }

    /// A ground among grounds arrives if the very contact that waits for it is on its piece: that
    /// the far board joins its grounds somewhere is no return path at this contact.
    void arrive_at_ground(Point from, Pass& pass) const {
        if (!wiring_.joined(from, wiring_.point_of(pass.to))) return;
        pass.reached = pass.to;
        pass.state = State::good;
    }

    /// Notes what a piece carries; two signals, or a ground and a signal, leave it unlabelled.
    void label(std::uint32_t piece, const Promise& promise, std::size_t carry) {
        std::optional<Wire>& wire = wiring_.wires_[piece];
        if (!wire) {
            wire = Wire{carry, promise.signal};
            return;
        }
        const Interface& near = *design_.interface_of(design_.port(design_.carries[wire->carry].from));
        const Role role = near.signals[wire->signal].role;
        const bool grounds = is_ground(role) && is_ground(promise.role);
        const bool supplies = role == Role::supply && promise.role == Role::supply;
        const bool same = wire->carry == carry && wire->signal == promise.signal;
        if (!grounds && !supplies && !same) mixed_.insert(piece);
    }

    bool other_half_comes_here(const Promise& promise) const {
        const std::optional<ContactRef> twin = other_half_of(design_, promise.from);
        return twin && wiring_.joined(wiring_.point_of(*twin), wiring_.point_of(promise.to));
    }

    std::vector<Point> hops(const Forest& forest, const Neighbours& neighbours, Point from,
                            const std::optional<ContactRef>& reached) const {
        std::vector<Point> path =
            reached ? forest.path(from, wiring_.point_of(*reached))
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
    std::set<std::uint32_t> mixed_;   ///< pieces that carry what should be apart
    std::vector<bool> only_grounds_;  ///< by piece: every device contact on it is a ground
};

std::string_view name_of(State state) {
    switch (state) {
        case State::good: return "good";
        case State::open: return "open";
        case State::wrong: return "wrong";
        case State::shorted: return "shorted";
        case State::swapped: return "swapped";
    }
    return "";
}

Point Wiring::point_of(const ContactRef& contact) const {
    return first_of_port_[contact.port.board][contact.port.port] +
           static_cast<Point>(contact.contact);
}

Point Wiring::point_of(std::size_t ribbon, End end, ConductorNumber conductor) const {
    const Point first = first_of_ribbon_[ribbon] + static_cast<Point>(conductor.index());
    return end == End::a ? first : first + static_cast<Point>(conductors_[ribbon]);
}

std::optional<ContactRef> Wiring::contact_at(Point point) const {
    const Point contacts = first_of_ribbon_.empty() ? first_net_ : first_of_ribbon_.front();
    if (point >= contacts) return std::nullopt;
    const auto after = std::ranges::upper_bound(port_points_, point);
    // A port without contacts shares its first point with the next port, which is the right one.
    const auto place = static_cast<std::size_t>(after - port_points_.begin()) - 1;
    return ContactRef{ports_[place], point - port_points_[place]};
}

std::string Wiring::name_of(Point point, const Design& design) const {
    if (const auto contact = contact_at(point)) return pinfold::name_of(design, *contact);
    if (point >= first_net_) return {};
    const auto after = std::ranges::upper_bound(first_of_ribbon_, point);
    const auto ribbon = static_cast<std::size_t>(after - first_of_ribbon_.begin()) - 1;
    const Point place = point - first_of_ribbon_[ribbon];
    const auto count = static_cast<Point>(conductors_[ribbon]);
    return fmt::format("{}.{}.{}", design.ribbons[ribbon].name,
                       pinfold::name_of(place < count ? End::a : End::b), place % count + 1);
}

std::optional<ContactRef> Wiring::contact_of(const Design& design, std::size_t ribbon, End end,
                                             ConductorNumber conductor) const {
    const std::optional<Seating>& seating = seatings_[ribbon];
    if (!seating || !(end == End::a ? seating->touch_a : seating->touch_b)) return std::nullopt;
    const Order order = seating->order == Order::either ? Order::straight : seating->order;
    const ContactNumber contact =
        end == End::a ? contact_at_a(conductor)
                      : contact_at_b(conductor, conductors_[ribbon], order);
    const PortRef port = design.seats[end == End::a ? *ends_[ribbon].a : *ends_[ribbon].b].port;
    if (contact.index() >= design.port(port).contacts.size()) return std::nullopt;
    return ContactRef{port, contact.index()};
}

std::optional<Wire> Wiring::wire_in(std::uint32_t piece) const { return wires_[piece]; }

std::optional<Wire> Wiring::wire_of(std::size_t ribbon, ConductorNumber conductor) const {
    return wires_[piece_[point_of(ribbon, End::a, conductor)]];
}

std::span<const ContactRef> Wiring::device_contacts(std::uint32_t piece) const {
    return {device_contacts_.data() + device_first_[piece],
            device_first_[piece + 1] - device_first_[piece]};
}

Wiring trace(const Design& design) { return Tracer(design).run(); }

}  // namespace pinfold
