#include <catch2/catch.hpp>

#include <array>
#include <random>

#include "design/lay.hpp"

// A second method for the order and the touch of a ribbon: no parity formula, but a strip of
// conductors whose every point is carried through space, step by step, by rotations about the line
// where it bends or creases. Where the strip ends, the contacts of a socket are laid out by the
// convention of the drawing, and each conductor is looked up by its coordinates.
namespace pinfold {
namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;  // rows

Vector operator+(Vector a, Vector b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
Vector operator-(Vector a, Vector b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
Vector operator*(double k, Vector a) { return {k * a[0], k * a[1], k * a[2]}; }
double dot(Vector a, Vector b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Vector cross(Vector a, Vector b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
Vector operator*(const Matrix& m, Vector a) { return {dot(m[0], a), dot(m[1], a), dot(m[2], a)}; }

constexpr int conductors = 5;
constexpr double pi = 3.14159265358979323846;

/// The rotation by an angle about an axis of length one (Rodrigues' formula).
Matrix rotation(Vector axis, double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    Matrix m{};
    const Vector unit[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (std::size_t j = 0; j < 3; ++j) {
        const Vector column =
            c * unit[j] + s * cross(axis, unit[j]) + ((1 - c) * dot(axis, unit[j])) * axis;
        for (std::size_t i = 0; i < 3; ++i) m[i][j] = column[i];
    }
    return m;
}

/// The far end of the strip: the middle, a point of every conductor, where the strip is going, and
/// where the face that looked up at end a looks.
struct StripEnd {
    Vector middle{};
    std::array<Vector, conductors> point{};
    Vector ahead{1, 0, 0};
    Vector first_face{0, 0, 1};

    void turn_about(Vector line, Vector axis, double angle) {
        const Matrix m = rotation(axis, angle);
        middle = line + m * (middle - line);
        for (Vector& p : point) p = line + m * (p - line);
        ahead = m * ahead;
        first_face = m * first_face;
    }
    void run_on(double length) {
        middle = middle + length * ahead;
        for (Vector& p : point) p = p + length * ahead;
    }
    /// The face that is uppermost for someone walking along: the one his head has been over.
    void take(Turn turn, Vector& head) {
        const Vector left = cross(head, ahead);
        const double root = std::sqrt(0.5);
        switch (turn) {
            case Turn::straight: break;
            case Turn::bend_up:  // about the width, the nose rising
                turn_about(middle, left, -pi / 2);
                head = rotation(left, -pi / 2) * head;
                break;
            case Turn::bend_down:
                turn_about(middle, left, pi / 2);
                head = rotation(left, pi / 2) * head;
                break;
            case Turn::fold_left:  // half a turn about a line at 45 degrees in the ribbon's plane
                turn_about(middle, root * (ahead + left), pi);
                break;
            case Turn::fold_right: turn_about(middle, root * (ahead - left), pi); break;
            case Turn::half_twist: turn_about(middle, ahead, pi); break;
        }
        run_on(40.0);
    }
};

/// A socket: its contacts in space and where the copper must look.
struct Socket {
    std::array<Vector, conductors> contact;
    Vector copper;
};

/// Laid out as the drawing has it: looking into the mouth with the board below (its component side
/// up), contact 1 is on the viewer's left or right.
Socket socket(Vector middle, Vector component_side, Vector mouth, ContactSide side, Hand first) {
    const Vector right = cross(-1.0 * mouth, component_side);  // the viewer looks against the mouth
    Socket made{};
    for (int k = 0; k < conductors; ++k) {
        const double along = (first == Hand::left ? 1 : -1) * (k - (conductors - 1) / 2.0);
        made.contact[static_cast<std::size_t>(k)] = middle + along * right;
    }
    made.copper = side == ContactSide::top ? component_side : -1.0 * component_side;
    return made;
}

bool near(Vector a, Vector b) { return std::abs(dot(a - b, a - b)) < 1e-6; }

std::size_t contact_near(const Socket& socket, Vector point) {
    for (std::size_t k = 0; k < conductors; ++k) {
        if (near(socket.contact[k], point)) return k;
    }
    return conductors;
}

struct Outcome {
    bool lies = false;  ///< the strip arrives flat on the board
    bool touches = false;
    bool straight = false;  ///< conductor by conductor, where it arrives
    bool mirrored = false;
};

Outcome by_rotation(Mouth a, Mouth b, Copper copper, const Lay& lay) {
    const auto axis = [](Facing facing) -> Vector {
        switch (facing) {
            case Facing::up: return {0, 0, 1};
            case Facing::down: return {0, 0, -1};
            case Facing::forward: return {1, 0, 0};
            case Facing::back: return {-1, 0, 0};
            case Facing::left: return {0, 1, 0};  // z up and x ahead leave y on the left
            case Facing::right: return {0, -1, 0};
        }
        return {};
    };
    const Socket from = socket({0, 0, 0}, axis(lay.face_a), {1, 0, 0}, a.side, a.first);
    StripEnd end;
    end.point = from.contact;                            // conductor k lies on contact k at end a
    const double shows_a = dot(from.copper, {0, 0, 1});  // which face of the strip is bared there

    Vector head{0, 0, 1};
    for (const Turn turn : lay.turns) end.take(turn, head);

    Outcome outcome;
    outcome.lies = std::abs(std::abs(dot(axis(lay.face_b), end.first_face)) - 1.0) < 1e-9;
    if (!outcome.lies) return outcome;
    const Socket to = socket(end.middle, axis(lay.face_b), -1.0 * end.ahead, b.side, b.first);
    const double shows_b = copper == Copper::same_side ? shows_a : -shows_a;
    outcome.touches = near(shows_b * end.first_face, to.copper);
    outcome.straight = outcome.mirrored = true;
    for (std::size_t k = 0; k < conductors; ++k) {
        const std::size_t met = contact_near(to, end.point[k]);
        outcome.straight = outcome.straight && met == k;
        outcome.mirrored = outcome.mirrored && met == conductors - 1 - k;
    }
    return outcome;
}

constexpr Turn turns[]{Turn::straight,  Turn::bend_up,    Turn::bend_down,
                       Turn::fold_left, Turn::fold_right, Turn::half_twist};
constexpr Facing facings[]{Facing::up,    Facing::down,    Facing::left,
                           Facing::right, Facing::forward, Facing::back};
constexpr ContactSide sides[]{ContactSide::top, ContactSide::bottom};
constexpr Hand hands[]{Hand::left, Hand::right};
constexpr Copper coppers[]{Copper::same_side, Copper::opposite_side};

/// How many of the outcomes that touch agree in all, and the first lay that does not.
struct Tally {
    std::size_t laid = 0, touched = 0, straight = 0, disagreements = 0;
};

void compare(const Lay& lay, Mouth a, Mouth b, Copper copper, Tally& tally) {
    const Outcome seen = by_rotation(a, b, copper, lay);
    if (seen.lies != can_lie(lay)) ++tally.disagreements;
    if (!seen.lies) return;
    ++tally.laid;
    const Seating seating = seat_ribbon(a, b, copper, lay);
    const bool touches = seating.touch_a && seating.touch_b;
    if (touches != seen.touches) ++tally.disagreements;
    if (seen.straight == seen.mirrored) ++tally.disagreements;  // every conductor arrives somewhere
    if (!seen.touches) return;
    ++tally.touched;
    if (seen.straight) ++tally.straight;
    if (seating.order != (seen.straight ? Order::straight : Order::mirrored)) ++tally.disagreements;
}

void compare_all(const Lay& lay, Tally& tally) {
    for (const ContactSide a : sides) {
        for (const ContactSide b : sides) {
            for (const Hand first_a : hands) {
                for (const Hand first_b : hands) {
                    for (const Copper copper : coppers) {
                        compare(lay, {a, first_a}, {b, first_b}, copper, tally);
                    }
                }
            }
        }
    }
}

}  // namespace

TEST_CASE("every lay of up to three steps seats as the rotated strip does") {
    Tally tally;
    for (const Facing face_a : {Facing::up, Facing::down}) {
        for (const Facing face_b : facings) {
            for (const Turn one : turns) {
                for (const Turn two : turns) {
                    for (const Turn three : turns) {
                        compare_all({{one, two, three}, face_a, face_b}, tally);
                    }
                }
            }
        }
    }
    CHECK(tally.disagreements == 0);
    CHECK(tally.laid == 2 * 216 * 2 * 32);   // of the six facings two take the ribbon flat
    CHECK(tally.touched == tally.laid / 2);  // one of the two coppers touches
    CHECK(tally.straight == tally.touched / 2);
}

TEST_CASE("thousands of long lays seat as the rotated strip does") {
    std::mt19937 chance(20);  // the same lays on every machine: mt19937 is fixed by the standard
    Tally tally;
    for (int i = 0; i < 3000; ++i) {
        Lay lay;
        for (auto steps = chance() % 13; steps > 0; --steps) {
            lay.turns.push_back(turns[chance() % 6]);
        }
        lay.face_a = facings[chance() % 2];
        lay.face_b = facings[chance() % 6];
        compare_all(lay, tally);
    }
    CHECK(tally.disagreements == 0);
    CHECK(tally.laid > 10'000);
}

TEST_CASE("the rotated strip itself does what hands and eyes say") {
    const Mouth bottom{ContactSide::bottom, Hand::left};
    const Outcome flat =
        by_rotation(bottom, bottom, Copper::same_side, {{Turn::straight}, Facing::up, Facing::up});
    CHECK((flat.lies && flat.touches && flat.mirrored));
    StripEnd end;
    end.point = socket({0, 0, 0}, {0, 0, 1}, {1, 0, 0}, ContactSide::bottom, Hand::left).contact;
    CHECK(near(end.point[0], {0, -2, 0}));  // looking back into the mouth, left is minus y
    Vector head{0, 0, 1};
    end.take(Turn::fold_left, head);
    CHECK(near(end.ahead, {0, 1, 0}));
    CHECK(near(end.first_face, {0, 0, -1}));
    CHECK(near(end.point[0], {-2, 40, 0}));
}

}  // namespace pinfold
