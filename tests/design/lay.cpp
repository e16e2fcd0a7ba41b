#include "design/lay.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

using enum Turn;

int sign(ContactSide side) { return side == ContactSide::top ? 1 : -1; }
int sign(Hand hand) { return hand == Hand::left ? 1 : -1; }

constexpr ContactSide sides[]{ContactSide::top, ContactSide::bottom};
constexpr Hand hands[]{Hand::left, Hand::right};
constexpr Copper coppers[]{Copper::same_side, Copper::opposite_side};

}  // namespace

// Proof and tables: parity of a ribbon carried along its course by a proper rotation, worked out
// for this program; brute force against it in lay_by_rotation.cpp.
TEST_CASE("contact 1 on the left with the copper side down is a handedness of plus one") {
    // A bottom contact has its copper side down as the board lies: what the drawing shows holds.
    CHECK(handedness(ContactSide::bottom, Hand::left) == 1);
    CHECK(handedness(ContactSide::bottom, Hand::right) == -1);
    // A top contact is turned over to bring its copper side down, and left becomes right.
    CHECK(handedness(ContactSide::top, Hand::left) == -1);
    CHECK(handedness(ContactSide::top, Hand::right) == 1);
}

TEST_CASE("equal hands are mirrored by a same-side ribbon and straight by an opposite-side one") {
    for (const int chi : {1, -1}) {
        CHECK(order_of(chi, chi, Copper::same_side) == Order::mirrored);
        CHECK(order_of(chi, chi, Copper::opposite_side) == Order::straight);
        CHECK(order_of(chi, -chi, Copper::same_side) == Order::straight);
        CHECK(order_of(chi, -chi, Copper::opposite_side) == Order::mirrored);
    }
}

namespace {

/// One row of the table of attitudes and routes: F face flips, G a board turned over, the order for
/// contacts numbered alike, the ribbon for two bottom or two top contacts, and for one of each.
struct Attitude {
    const char* what;
    Lay lay;
    Order order;
    Copper alike, mixed;
};

const Copper same = Copper::same_side;
const Copper opposite = Copper::opposite_side;

const std::vector<Attitude> attitudes{
    {"in plane, both face up, flat",
     {{straight}, Facing::up, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"in plane, both face up, S-bend",
     {{bend_up, bend_down}, Facing::up, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"in plane, one board face down",
     {{straight}, Facing::up, Facing::down},
     Order::straight,
     opposite,
     same},
    {"in plane, the other board face down",
     {{straight}, Facing::down, Facing::up},
     Order::straight,
     opposite,
     same},
    {"stacked, both face up, one U-bend",
     {{bend_up, bend_up}, Facing::up, Facing::up},
     Order::straight,
     opposite,
     same},
    {"stacked below, both face up, one U-bend",
     {{bend_down, bend_down}, Facing::up, Facing::up},
     Order::straight,
     opposite,
     same},
    {"stacked with components inward, U-bend",
     {{bend_up, bend_up}, Facing::up, Facing::down},
     Order::mirrored,
     same,
     opposite},
    {"stacked with components outward, U-bend",
     {{bend_up, bend_up}, Facing::down, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"stacked at opposite edges, two U-bends",
     {{bend_up, bend_up, bend_down, bend_down}, Facing::up, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"the same, one board face down",
     {{bend_up, bend_up, bend_down, bend_down}, Facing::up, Facing::down},
     Order::straight,
     opposite,
     same},
    {"wall, components on the side that flattens to face up",
     {{bend_up}, Facing::up, Facing::back},
     Order::mirrored,
     same,
     opposite},
    {"wall, components on the other side",
     {{bend_up}, Facing::up, Facing::forward},
     Order::straight,
     opposite,
     same},
    {"wall below, components on the side that flattens to face up",
     {{bend_down}, Facing::up, Facing::forward},
     Order::mirrored,
     same,
     opposite},
    {"wall below, components on the other side",
     {{bend_down}, Facing::up, Facing::back},
     Order::straight,
     opposite,
     same},
    {"one crease to the left, both face up",
     {{fold_left}, Facing::up, Facing::up},
     Order::straight,
     opposite,
     same},
    {"one crease to the right, both face up",
     {{fold_right}, Facing::up, Facing::up},
     Order::straight,
     opposite,
     same},
    {"one crease, one face down",
     {{fold_left}, Facing::up, Facing::down},
     Order::mirrored,
     same,
     opposite},
    {"two creases in a Z, both face up",
     {{fold_left, fold_right}, Facing::up, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"two creases in a U, both face up",
     {{fold_left, fold_left}, Facing::up, Facing::up},
     Order::mirrored,
     same,
     opposite},
    {"two creases in a Z, one face down",
     {{fold_left, fold_right}, Facing::up, Facing::down},
     Order::straight,
     opposite,
     same},
    {"two creases in a U, one face down",
     {{fold_right, fold_right}, Facing::up, Facing::down},
     Order::straight,
     opposite,
     same},
    {"half twist, both face up",
     {{half_twist}, Facing::up, Facing::up},
     Order::straight,
     opposite,
     same},
};

Order exchanged(Order order) {
    return order == Order::straight ? Order::mirrored : Order::straight;
}

}  // namespace

TEST_CASE("every attitude and route needs the ribbon and gives the order of the table") {
    for (const Attitude& row : attitudes) {
        for (const ContactSide a : sides) {
            for (const ContactSide b : sides) {
                for (const Hand first_a : hands) {
                    for (const Hand first_b : hands) {
                        CAPTURE(row.what, sign(a), sign(b), sign(first_a), sign(first_b));
                        const Copper needed = a == b ? row.alike : row.mixed;
                        REQUIRE(copper_that_touches(row.lay, a, b) == needed);
                        const Order order = first_a == first_b ? row.order : exchanged(row.order);
                        CHECK(order_of(handedness(a, first_a), handedness(b, first_b), needed) ==
                              order);
                        for (const Copper copper : coppers) {
                            const Seating seating =
                                seat_ribbon({a, first_a}, {b, first_b}, copper, row.lay);
                            CHECK((seating.touch_a && seating.touch_b) == (copper == needed));
                            if (copper == needed) CHECK(seating.order == order);
                        }
                    }
                }
            }
        }
    }
}

// The bench's own example: A at the origin, mouth forward, bottom contact, contact 1 on the left;
// B a hundred millimetres on, facing back.
TEST_CASE("a flat ribbon between two equal sockets mirrors the row") {
    const Mouth bottom{ContactSide::bottom, Hand::left};
    const Lay flat{{straight}, Facing::up, Facing::up};
    const Seating seating = seat_ribbon(bottom, bottom, Copper::same_side, flat);
    CHECK(seating.touch_b);
    CHECK(seating.order == Order::mirrored);
    CHECK(contact_at_a(ConductorNumber(1)) == ContactNumber(1));
    CHECK(contact_at_b(ConductorNumber(1), 4, seating.order) == ContactNumber(4));
    CHECK(contact_at_b(ConductorNumber(4), 4, seating.order) == ContactNumber(1));
}

TEST_CASE("the same with B turned over wants the opposite-side ribbon and is straight") {
    const Mouth bottom{ContactSide::bottom, Hand::left};
    const Lay turned{{straight}, Facing::up, Facing::down};
    CHECK_FALSE(seat_ribbon(bottom, bottom, Copper::same_side, turned).touch_b);
    const Seating seating = seat_ribbon(bottom, bottom, Copper::opposite_side, turned);
    CHECK(seating.touch_b);
    CHECK(seating.order == Order::straight);
    CHECK(contact_at_b(ConductorNumber(1), 4, seating.order) == ContactNumber(1));
}

TEST_CASE("a crease brings the copper up and keeps the row") {
    const Mouth bottom{ContactSide::bottom, Hand::left};
    const Mouth top{ContactSide::top, Hand::left};
    const Lay crease{{fold_left}, Facing::up, Facing::up};
    const Seating seating = seat_ribbon(bottom, top, Copper::same_side, crease);
    CHECK(seating.touch_b);
    CHECK(seating.order == Order::straight);
    CHECK_FALSE(seat_ribbon(bottom, bottom, Copper::same_side, crease).touch_b);
}

// Someone walking on the uppermost face: after a bend up he climbs with his head back, and a fold
// then turns to the left hand that he has there.
TEST_CASE("left and right are those of someone walking on the uppermost face") {
    const auto can = [](std::vector<Turn> turns, Facing face_b) {
        return can_lie({std::move(turns), Facing::up, face_b});
    };
    // Up the wall: the board there faces back or forward.
    CHECK(can({bend_up}, Facing::back));
    CHECK_FALSE(can({bend_up}, Facing::up));
    CHECK_FALSE(can({bend_up}, Facing::left));
    // Folded to the left and then up: the wall stands on the left, its board faces right or left.
    CHECK(can({fold_left, bend_up}, Facing::right));
    CHECK_FALSE(can({fold_left, bend_up}, Facing::back));
    // After the fold the first face looks down, so the board whose component side is where his head
    // was wants the other copper than on the right-hand wall without a fold.
    CHECK(copper_that_touches({{fold_left, bend_up}, Facing::up, Facing::right},
                              ContactSide::bottom, ContactSide::bottom) == Copper::opposite_side);
    CHECK(copper_that_touches({{fold_right, bend_up}, Facing::up, Facing::left},
                              ContactSide::bottom, ContactSide::bottom) == Copper::opposite_side);
    CHECK(copper_that_touches({{fold_left, bend_up}, Facing::up, Facing::left}, ContactSide::bottom,
                              ContactSide::bottom) == Copper::same_side);
}

TEST_CASE("a ribbon that arrives on edge can lie nowhere") {
    const Lay on_edge{{straight}, Facing::up, Facing::left};
    CHECK_FALSE(can_lie(on_edge));
    CHECK_FALSE(copper_that_touches(on_edge, ContactSide::top, ContactSide::bottom));
    for (const Copper copper : coppers) {
        CHECK_FALSE(seat_ribbon({}, {}, copper, on_edge).touch_b);
    }
}

TEST_CASE("without a lay the ribbon is led so that its copper touches") {
    for (const ContactSide a : sides) {
        for (const ContactSide b : sides) {
            for (const Copper copper : coppers) {
                const Seating seating = seat_ribbon({a, Hand::left}, {b, Hand::left}, copper, {});
                CHECK((seating.touch_a && seating.touch_b));
                CHECK(seating.order ==
                      order_of(handedness(a, Hand::left), handedness(b, Hand::left), copper));
                CHECK(seating.side_a == a);
                CHECK(seating.side_b == b);
            }
        }
    }
}

TEST_CASE("a both-sided receptacle leaves the order to whoever inserts the ribbon") {
    for (const Copper copper : coppers) {
        for (const ContactSide b : {ContactSide::top, ContactSide::bottom, ContactSide::both}) {
            const Seating seating =
                seat_ribbon({ContactSide::both, Hand::left}, {b, Hand::right}, copper, {});
            CHECK(seating.order == Order::either);
            CHECK((seating.touch_a && seating.touch_b));
            CHECK(seating.side_a == ContactSide::both);
        }
    }
}

TEST_CASE("a both-sided receptacle always touches and a known lay settles its order") {
    for (const Attitude& row : attitudes) {
        for (const Copper copper : coppers) {
            for (const ContactSide b : {ContactSide::top, ContactSide::bottom, ContactSide::both}) {
                CAPTURE(row.what);
                const Seating seating =
                    seat_ribbon({ContactSide::both, Hand::left}, {b, Hand::left}, copper, row.lay);
                CHECK((seating.touch_a && seating.touch_b));
                CHECK(seating.order == row.order);
            }
        }
    }
}

TEST_CASE("the side that touches is told when the lay settles it and not otherwise") {
    const Lay flat{{straight}, Facing::up, Facing::up};
    const Mouth both{ContactSide::both, Hand::left};
    const Mouth bottom{ContactSide::bottom, Hand::left};
    CHECK(seat_ribbon(both, bottom, Copper::same_side, flat).side_a == ContactSide::bottom);
    CHECK(seat_ribbon(both, bottom, Copper::opposite_side, flat).side_a == ContactSide::top);
    CHECK(seat_ribbon(both, both, Copper::same_side, flat).side_a == ContactSide::both);
}

TEST_CASE("a vertical receptacle is a bottom one by definition") {
    // Look into its mouth with the contacts below: nothing but the convention.
    CHECK(handedness(ContactSide::bottom, Hand::left) == 1);
    // Board A flat, ribbon up the wall out of it: the side opposite the contacts looks forward or
    // back, never up.
    CHECK(can_lie({{bend_down}, Facing::up, Facing::forward}));
}

TEST_CASE("words of the lay have names") {
    CHECK(name_of(Copper::same_side) == "same-side");
    CHECK(name_of(Copper::opposite_side) == "opposite-side");
    CHECK(name_of(Order::either) == "either");
    CHECK(name_of(fold_left) == "fold-left");
    CHECK(name_of(half_twist) == "half-twist");
    CHECK(name_of(Facing::back) == "back");
    CHECK(name_of(Hand::right) == "right");
}

}  // namespace pinfold
