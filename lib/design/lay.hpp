// The lay: how a ribbon end sits in a receptacle, whether its copper touches, and in which order.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "pinmap/place.hpp"
#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// On which faces the bared ends show their copper.
enum class Copper { same_side, opposite_side };

/// Where contact 1 is, looking into the mouth of the receptacle with its board below (a vertical
/// part: with its contacts below).
enum class Hand { left, right };

/// A direction in space, fixed by the ribbon's end a: it leaves board A forward, and board A lies
/// flat.
enum class Facing { up, down, left, right, forward, back };

/// One step of the ribbon's course, told as someone walking along it from end a, on whatever face
/// is uppermost: a bend by 90 degrees up or down, a 45 degree crease that turns the course left or
/// right and the ribbon over, a half twist that turns it over in a straight run.
enum class Turn { straight, bend_up, bend_down, fold_left, fold_right, half_twist };

enum class Order { straight, mirrored, either };

std::string_view name_of(Copper copper);
std::string_view name_of(Hand hand);
std::string_view name_of(Facing facing);
std::string_view name_of(Turn turn);
std::string_view name_of(Order order);

/// The course of a ribbon and the way the component sides of its two boards look (for a vertical
/// receptacle: the way the side opposite its contacts looks).
struct Lay {
    std::vector<Turn> turns;
    Facing face_a = Facing::up;  ///< up or down
    Facing face_b = Facing::up;
};

/// What a ribbon end meets: the receptacle's contact side and first contact.
struct Mouth {
    ContactSide side = ContactSide::bottom;
    Hand first = Hand::left;
};

/// +1 if contact 1 is on the left when looking into the mouth held so that the side facing the
/// copper is down, else -1. `side` must not be `both`.
int handedness(ContactSide side, Hand first);

/// The order that two receptacles and a ribbon give, whatever the lay: straight exactly when
/// chi_A * chi_B = -e with e = +1 for same-side copper, -1 for opposite-side.
///
/// Proved by transporting the contact rows along the ribbon, a proper rotation; checked against
/// rotated coordinates in tests/design/lay.cpp.
Order order_of(int handedness_a, int handedness_b, Copper copper);

/// The copper that touches both rows of contacts for a lay; nothing if the ribbon would arrive on
/// edge. The sides must not be `both`.
std::optional<Copper> copper_that_touches(const Lay& lay, ContactSide side_a, ContactSide side_b);

/// Whether `face` is a way the board at end b can lie without twisting the ribbon by 90 degrees.
bool can_lie(const Lay& lay);

/// How both ends of a ribbon sit.
struct Seating {
    bool touch_a = true;
    bool touch_b = true;
    Order order = Order::straight;
    ContactSide side_a = ContactSide::bottom;  ///< the side that does the touching, as far as known
    ContactSide side_b = ContactSide::bottom;
};

/// Seats a flat ribbon. Without a lay the ribbon is taken to be led so that its copper touches, and
/// a both-sided receptacle leaves the order to whoever inserts it.
Seating seat_ribbon(Mouth a, Mouth b, Copper copper, const std::optional<Lay>& lay);

/// The contact a conductor meets. Conductor 1 is the one on contact 1 at end a.
ContactNumber contact_at_a(ConductorNumber conductor);
ContactNumber contact_at_b(ConductorNumber conductor, int conductors, Order order);

}  // namespace pinfold
