#include "design/lay.hpp"

#include <cassert>
#include <set>

namespace pinfold {
namespace {

using Axis = std::array<int, 3>;

constexpr Axis forward{1, 0, 0};
constexpr Axis upward{0, 0, 1};

Axis negated(Axis a) { return {-a[0], -a[1], -a[2]}; }
int dot(Axis a, Axis b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Axis cross(Axis a, Axis b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Axis axis_of(Facing facing) {
    switch (facing) {
        case Facing::up: return upward;
        case Facing::down: return negated(upward);
        case Facing::left: return cross(upward, forward);
        case Facing::right: return negated(cross(upward, forward));
        case Facing::forward: return forward;
        case Facing::back: return negated(forward);
    }
    return upward;
}

/// Someone walking along the ribbon: where he goes, where his head is, and whether the face he
/// walks on is the one he started on (+1) or the other (-1).
struct Walker {
    Axis ahead = forward;
    Axis head = upward;
    int face = 1;

    Axis left() const { return cross(head, ahead); }
    /// Where the face that looked up at end a looks now.
    Axis first_face() const { return face > 0 ? head : negated(head); }
};

Walker step(Walker walker, Turn turn) {
    const Axis ahead = walker.ahead;
    switch (turn) {
        case Turn::straight: break;
        case Turn::bend_up:
            walker.ahead = walker.head;
            walker.head = negated(ahead);
            break;
        case Turn::bend_down:
            walker.ahead = negated(walker.head);
            walker.head = ahead;
            break;
        case Turn::fold_left:
            walker.ahead = walker.left();
            walker.face = -walker.face;
            break;
        case Turn::fold_right:
            walker.ahead = negated(walker.left());
            walker.face = -walker.face;
            break;
        case Turn::half_twist: walker.face = -walker.face; break;
    }
    return walker;
}

Walker walk(const std::vector<Turn>& turns) {
    Walker walker;
    for (const Turn turn : turns) walker = step(walker, turn);
    return walker;
}

/// +1 if the copper must look the way the component side looks, -1 if the other way.
int sign_of(ContactSide side) {
    assert(side != ContactSide::both);
    return side == ContactSide::top ? 1 : -1;
}

/// e = (R f_A) . f_B; 0 if the ribbon arrives on edge.
int faces_in_line(const Lay& lay, ContactSide side_a, ContactSide side_b) {
    const Walker end = walk(lay.turns);
    const int copper_a = sign_of(side_a) * dot(axis_of(lay.face_a), upward);
    const int copper_b = sign_of(side_b) * dot(axis_of(lay.face_b), end.first_face());
    return copper_a * copper_b;
}

std::vector<ContactSide> sides_of(const Mouth& mouth) {
    if (mouth.side != ContactSide::both) return {mouth.side};
    return {ContactSide::top, ContactSide::bottom};
}

}  // namespace

std::string_view name_of(Copper copper) {
    return copper == Copper::same_side ? "same-side" : "opposite-side";
}

std::string_view name_of(Hand hand) { return hand == Hand::left ? "left" : "right"; }

std::string_view name_of(Facing facing) {
    switch (facing) {
        case Facing::up: return "up";
        case Facing::down: return "down";
        case Facing::left: return "left";
        case Facing::right: return "right";
        case Facing::forward: return "forward";
        case Facing::back: return "back";
    }
    return "";
}

std::string_view name_of(Turn turn) {
    switch (turn) {
        case Turn::straight: return "straight";
        case Turn::bend_up: return "bend-up";
        case Turn::bend_down: return "bend-down";
        case Turn::fold_left: return "fold-left";
        case Turn::fold_right: return "fold-right";
        case Turn::half_twist: return "half-twist";
    }
    return "";
}

std::string_view name_of(Order order) {
    switch (order) {
        case Order::straight: return "straight";
        case Order::mirrored: return "mirrored";
        case Order::either: return "either";
    }
    return "";
}

int handedness(ContactSide side, Hand first) {
    return -(first == Hand::left ? 1 : -1) * sign_of(side);
}

Order order_of(int handedness_a, int handedness_b, Copper copper) {
    const int e = copper == Copper::same_side ? 1 : -1;
    return handedness_a * handedness_b == -e ? Order::straight : Order::mirrored;
}

std::optional<Copper> copper_that_touches(const Lay& lay, ContactSide side_a, ContactSide side_b) {
    const int e = faces_in_line(lay, side_a, side_b);
    if (e == 0) return std::nullopt;
    return e > 0 ? Copper::same_side : Copper::opposite_side;
}

bool can_lie(const Lay& lay) {
    return faces_in_line(lay, ContactSide::bottom, ContactSide::bottom) != 0;
}

Seating seat_ribbon(Mouth a, Mouth b, Copper copper, const std::optional<Lay>& lay) {
    Seating seating{true, false, Order::either, a.side, b.side};
    std::set<Order> orders;
    for (const ContactSide side_a : sides_of(a)) {
        for (const ContactSide side_b : sides_of(b)) {
            const Order order =
                order_of(handedness(side_a, a.first), handedness(side_b, b.first), copper);
            const bool touches = !lay || copper_that_touches(*lay, side_a, side_b) == copper;
            if (!touches && orders.empty() && !seating.touch_b) seating.order = order;
            if (!touches) continue;
            orders.insert(order);
            const bool is_second = seating.touch_b;
            seating.side_a = is_second && seating.side_a != side_a ? a.side : side_a;
            seating.side_b = is_second && seating.side_b != side_b ? b.side : side_b;
            seating.touch_b = true;
        }
    }
    if (orders.size() == 1) seating.order = *orders.begin();
    if (orders.size() == 2) seating.order = Order::either;
    return seating;
}

ContactNumber contact_at_a(ConductorNumber conductor) { return ContactNumber(conductor.number()); }

ContactNumber contact_at_b(ConductorNumber conductor, int conductors, Order order) {
    assert(order != Order::either);
    return ContactNumber(order == Order::straight ? conductor.number()
                                                  : conductors + 1 - conductor.number());
}

}  // namespace pinfold
