// The design: devices, boards, ribbons, leads, how they are joined, and what is promised.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/board.hpp"
#include "design/budget.hpp"
#include "design/lay.hpp"
#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// A port, by its place in the design.
struct PortRef {
    std::size_t board = 0;
    std::size_t port = 0;
    friend auto operator<=>(const PortRef&, const PortRef&) = default;
};

/// A contact, by its place in the design; `contact` counts from 0.
struct ContactRef {
    PortRef port;
    std::size_t contact = 0;
    friend auto operator<=>(const ContactRef&, const ContactRef&) = default;
};

enum class End { a, b };

/// A word of a file and where it stands.
struct Written {
    std::string text;
    Mark at;
};

/// What the user wants of an order that is left open.
struct OrderWishes {
    std::vector<std::pair<ConductorNumber, Written>> fixed;  ///< signals that have their place
    std::vector<std::pair<Written, int>> supplies;           ///< conductors for each
    std::optional<int> grounds;          ///< no more than these; what is left over stays open
    std::vector<Written> may_leave_out;  ///< signals to give up if need be, the first first
    std::vector<Written> aims;           ///< ranked before all others
    Mark at;
};

/// A metal foil along a flat ribbon, joined to the boards' ground at both ends.
struct Shield {
    bool both_sides = false;
    Millimetres spacer;        ///< beyond the film, up to the foil; nothing if it lies on the film
    double spacer_er = 1.0;    ///< of the spacer
    double spacer_loss = 0.0;  ///< its loss tangent
    Mark at;
};

/// A ribbon as cut: so many conductors, so long.
struct Ribbon {
    std::string name;
    std::string type;  ///< a ribbon type's id
    int conductors = 1;
    Millimetres length;
    Copper copper = Copper::same_side;     ///< flat ribbons
    bool turned_socket = false;            ///< round ones: one socket's contact 1 on the far edge
    std::optional<Millimetres> thickness;  ///< of the conductors, if not the type's
    std::optional<Shield> shield;
    std::optional<Lay> lay;
    OrderWishes wishes;
    Mark at;
};

/// A loose insulated wire between two contacts.
struct Lead {
    std::string name;
    ContactRef from, to;
    SquareMillimetres section;
    std::string gauge;  ///< as written: `AWG 24`, `0.25 mm2`
    std::string colour;
    Millimetres length;
    std::optional<Amperes> rating;  ///< from its data sheet, if not the table's for its section
    Mark at;
};

/// What contacts of a join measure, where that is not what the pin map says.
struct MeasuredContacts {
    std::optional<Ohms> all;
    std::map<std::size_t, Ohms> single;  ///< by contact of the (first) port, from 0
};

/// A plug in a receptacle.
struct PortJoin {
    PortRef a, b;
    bool flipped = false;
    Mark at;
    MeasuredContacts measured = {};
};

/// A ribbon end in a receptacle.
struct Seat {
    PortRef port;
    std::size_t ribbon = 0;
    End end = End::a;
    std::optional<ContactSide> touches;  ///< which row a both-sided receptacle is to touch with
    Mark at;
    int slip = 0;  ///< places the ribbon sits off; never in a file, only where one is tried out
    MeasuredContacts measured = {};
};

/// A promise: this interface, or this supply, from one port of a device to another.
struct Carry {
    std::string name;       ///< `hdmi logger.video to screen.video`
    std::string interface;  ///< an interface's id; empty for a supply
    std::string supply;     ///< the supply's name; empty for an interface
    PortRef from, to;
    std::optional<GigabitsPerSecond> rate;  ///< per lane
    std::optional<Amperes> current;         ///< drawn at the far port
    std::optional<Watts> power;             ///< drawn there by a converter, in place of a current
    std::optional<Volts> voltage;           ///< given at the near port
    std::optional<Volts> least;             ///< that the far port must see
    std::vector<std::string> left_out;      ///< signals the user gives up, as written
    Mark at;
};

/// A finding the user has looked at and takes, and why.
struct Acceptance {
    std::string rule;
    std::string where;  ///< a place the finding names; empty for any
    std::string why;
    Mark at;
};

/// The user's design with everything it names read and every value well-formed.
///
/// Models hold no pointers to each other, so a design copies freely and a changed copy can be
/// traced beside the first.
struct Design {
    std::string title;
    std::string file;
    std::vector<Board> boards;  ///< devices first
    std::vector<Ribbon> ribbons;
    std::vector<Lead> leads;
    std::vector<PortJoin> joins;
    std::vector<Seat> seats;
    std::vector<Carry> carries;
    Budget budget;
    std::vector<Acceptance> acceptances;

    std::map<std::string, Connector> connectors;  ///< every pin map the design names
    std::map<std::string, Interface> interfaces;
    std::map<std::string, RibbonType> ribbon_types;
    std::map<std::string, ReceptacleType> receptacle_types;
    Findings remarks;  ///< what the reader has to say of a design it can use

    const Port& port(PortRef ref) const { return boards[ref.board].ports[ref.port]; }
    const Interface* interface_of(const Port& port) const;
    const PortContact& contact(const ContactRef& ref) const {
        return port(ref.port).contacts[ref.contact];
    }
    /// What is known of a contact's signal from its port's pin map.
    const Signal* signal_of(const ContactRef& ref) const;
};

/// The seats of a ribbon's two ends, in the design's seats; nothing for an end that hangs loose.
struct RibbonEnds {
    std::optional<std::size_t> a, b;
};

/// The ends of every ribbon, in the order of the ribbons.
std::vector<RibbonEnds> ribbon_ends(const Design& design);

std::string name_of(const Design& design, PortRef ref);            ///< `base.tail`
std::string name_of(const Design& design, const ContactRef& ref);  ///< `base.tail.3`
std::string_view name_of(End end);

/// How the ends of a ribbon sit; nothing unless both are joined to ports that take its kind.
std::optional<Seating> seating_of(const Design& design, std::size_t ribbon, const RibbonEnds& ends);

}  // namespace pinfold
