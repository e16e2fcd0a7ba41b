// Wiring: what is joined to what once a design has been traced, and what became of each promise.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// What became of one promised signal.
///
/// `open`: nothing of the far port is reached. `wrong`: only other signals are. `swapped`: the
/// other half of its own pair is, and the other half reaches this one. `shorted`: it meets another
/// signal at either port, or at a third.
enum class State { good, open, wrong, shorted, swapped };

std::string_view name_of(State state);

/// A contact, a ribbon's conductor at one end, or a net: a point of the wiring, numbered from 0.
using Point = std::uint32_t;

/// One promised signal from its source contact to the contact that waits for it.
struct Pass {
    std::size_t carry = 0;
    std::size_t signal = 0;  ///< in the interface of the near port
    Role role = Role::low_speed;
    ContactRef from;
    ContactRef to;                      ///< where it should arrive
    std::optional<ContactRef> reached;  ///< where it does
    State state = State::open;
    std::vector<Point> hops;  ///< contacts and conductor ends on the way, or as far as it gets
};

/// What one conductor carries, told from the near end of the promise.
struct Wire {
    std::size_t carry = 0;
    std::size_t signal = 0;  ///< in the interface of the promise's near port
};

/// How two points hang together; carries the resistance a feed will meet.
enum class LinkKind : std::uint8_t { join, seat, copper, conductor, lead };

struct Link {
    Point one, other;
    std::uint32_t place;  ///< in the design's joins, seats, boards, ribbons or leads
    LinkKind kind;
};

/// The result of tracing: which points are connected, and one pass per promised signal.
///
/// Points are numbered: the contacts of all ports, then the conductors at end a and end b of each
/// ribbon, then the nets of all boards.
class Wiring {
public:
    Point point_of(const ContactRef& contact) const;
    Point point_of(std::size_t ribbon, End end, ConductorNumber conductor) const;

    /// The number of the connected piece a point belongs to.
    std::uint32_t piece_of(Point point) const { return piece_[point]; }
    bool joined(Point one, Point other) const { return piece_[one] == piece_[other]; }

    /// `base.tail.3` or `strap.a.3`; empty for a net.
    std::string name_of(Point point, const Design& design) const;
    std::optional<ContactRef> contact_at(Point point) const;
    /// The ribbon of a conductor's end.
    std::size_t ribbon_at(Point point) const;

    const std::vector<Pass>& passes() const { return passes_; }  ///< in order of their carries
    std::span<const Pass> passes_of(std::size_t carry) const;
    const std::vector<Link>& links() const { return links_; }
    std::size_t points() const { return piece_.size(); }
    std::uint32_t pieces() const { return static_cast<std::uint32_t>(device_first_.size() - 1); }

    /// The seats of a ribbon's ends, and how they sit if both are joined.
    const RibbonEnds& ends_of(std::size_t ribbon) const { return ends_[ribbon]; }
    const std::optional<Seating>& seating_of(std::size_t ribbon) const { return seatings_[ribbon]; }
    /// The contact a conductor meets at one end; nothing if the end is loose or does not touch.
    std::optional<ContactRef> contact_of(const Design& design, std::size_t ribbon, End end,
                                         ConductorNumber conductor) const;

    /// What a conductor carries; nothing if no promised signal runs in it.
    std::optional<Wire> wire_of(std::size_t ribbon, ConductorNumber conductor) const;
    /// What a piece carries; nothing if no promised signal runs in it, or several that should not.
    std::optional<Wire> wire_in(std::uint32_t piece) const;

    /// The contacts in one piece where signals start and end, in order: those of devices, and of
    /// boards' ports that a promise names.
    std::span<const ContactRef> device_contacts(std::uint32_t piece) const;

private:
    friend class Tracer;

    std::vector<std::vector<Point>> first_of_port_;  ///< by board and port
    std::vector<Point> first_of_ribbon_;
    std::vector<PortRef> ports_;      ///< in order of their first points
    std::vector<Point> port_points_;  ///< the first point of each of `ports_`
    Point first_net_ = 0;
    std::vector<Link> links_;
    std::vector<std::uint32_t> piece_;
    std::vector<std::size_t> device_first_;  ///< by piece, into `device_contacts_`
    std::vector<ContactRef> device_contacts_;
    std::vector<std::optional<Wire>> wires_;        ///< by piece
    std::vector<int> conductors_;                   ///< by ribbon
    std::vector<RibbonEnds> ends_;                  ///< by ribbon
    std::vector<std::optional<Seating>> seatings_;  ///< by ribbon
    std::vector<Pass> passes_;
};

/// Traces copper, joins, seats and leads over the whole design, then every promised signal.
///
/// The time grows with the number of contacts; a seat whose copper does not touch joins nothing, a
/// ribbon whose order is up to the assembler is traced straight.
Wiring trace(const Design& design);

}  // namespace pinfold
