#include <fmt/format.h>

#include <algorithm>
#include <limits>

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
        const std::vector<RibbonEnds> ends = ribbon_ends(design_);
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) {
            link_conductors(r);
            const std::optional<Seating> seating = seating_of(design_, r, ends[r]);
            if (!seating) continue;
            if (seating->touch_a) link_end(r, *ends[r].a, *seating);
            if (seating->touch_b) link_end(r, *ends[r].b, *seating);
        }
    }

    void link_conductors(std::size_t ribbon) {
        for (int n = 1; n <= design_.ribbons[ribbon].conductors; ++n) {
            link(wiring_.point_of(ribbon, End::a, ConductorNumber(n)),
                 wiring_.point_of(ribbon, End::b, ConductorNumber(n)), LinkKind::conductor,
                 ribbon);
        }
    }

    void link_end(std::size_t ribbon, std::size_t seat_place, const Seating& seating) {
        const Seat& seat = design_.seats[seat_place];
        const int conductors = design_.ribbons[ribbon].conductors;
        const Order order = seating.order == Order::either ? Order::straight : seating.order;
        const std::size_t contacts = design_.port(seat.port).contacts.size();
        for (int n = 1; n <= conductors; ++n) {
            const ConductorNumber conductor(n);
            const ContactNumber contact = seat.end == End::a
                                              ? contact_at_a(conductor)
                                              : contact_at_b(conductor, conductors, order);
            if (contact.index() >= contacts) continue;
            link(wiring_.point_of(ContactRef{seat.port, contact.index()}),
                 wiring_.point_of(ribbon, seat.end, conductor), LinkKind::seat, seat_place);
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

    template <class Visit>
    void for_device_contacts(const Visit& visit) const {
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            if (!design_.boards[b].is_device) continue;
            for (std::size_t p = 0; p < design_.boards[b].ports.size(); ++p) {
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
                std::optional<Wire>& wire = wiring_.wires_[wiring_.piece_[from]];
                if (!wire) wire = Wire{c, promise.signal};
                wiring_.passes_.push_back(std::move(pass));
            }
        }
    }

    /// Where a promised signal arrives and what that makes of it.
    void arrive(const Promise& promise, Pass& pass) const {
        const Point from = wiring_.point_of(promise.from);
        const std::uint32_t piece = wiring_.piece_[from];
        if (is_ground(promise.role) && only_grounds_[piece]) return arrive_at_ground(from, pass);
        bool right = false;
        bool half = false;
        bool foreign = false;
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
            foreign = foreign || meeting == Meeting::other_half || meeting == Meeting::other;
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

    /// A ground among grounds arrives if any ground of the far port is on its piece. Costs no more
    /// than the far port has contacts, however many grounds hang together.
    void arrive_at_ground(Point from, Pass& pass) const {
        const auto arrives = [&](const ContactRef& contact) {
            return wiring_.joined(from, wiring_.point_of(contact));
        };
        if (arrives(pass.to)) pass.reached = pass.to;
        const std::size_t contacts = design_.port(pass.to.port).contacts.size();
        for (std::size_t i = 0; i < contacts && !pass.reached; ++i) {
            if (arrives({pass.to.port, i})) pass.reached = ContactRef{pass.to.port, i};
        }
        pass.state = pass.reached ? State::good : State::open;
    }

    bool other_half_comes_here(const Promise& promise) const {
        const std::optional<ContactRef> twin = other_half_of(design_, promise.from);
        return twin && wiring_.joined(wiring_.point_of(*twin), wiring_.point_of(promise.to));
    }

    std::vector<Point> hops(const Forest& forest, const Neighbours& neighbours, Point from,
                            const std::optional<ContactRef>& reached) const {
        std::vector<Point> path =
            reached ? forest.path(from, wiring_.point_of(*reached))
                    : forest.path(from, furthest(from, neighbours, forest));
        std::erase_if(path, [&](Point point) { return point >= wiring_.first_net_; });
        return path;
    }

    /// Where an open signal ends: the last point met going outwards. Looks at a bounded number of
    /// points, so that a great open ground costs no more than a signal.
    static Point furthest(Point from, const Neighbours& neighbours, const Forest& forest) {
        constexpr std::size_t most_points = 64;
        std::vector<Point> queue{from};
        for (std::size_t i = 0; i < queue.size() && queue.size() < most_points; ++i) {
            for (const Point next : neighbours.of(queue[i])) {
                if (forest.piece[next] != forest.piece[from]) continue;
                if (std::ranges::find(queue, next) == queue.end()) queue.push_back(next);
            }
        }
        return queue.back();
    }

    const Design& design_;
    Wiring wiring_;
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
