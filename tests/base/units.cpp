#include "base/units.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a < b;
};
template <class A>
concept MadeFromNumber = requires(void (*take)(A)) {
    take(1.0);
};

static_assert(Addable<Millimetres, Millimetres>);
static_assert(!Addable<Millimetres, Ohms>, "a length plus a resistance must not compile");
static_assert(!Comparable<Volts, Amperes>);
static_assert(!MadeFromNumber<Ohms>, "a bare number has no unit");

}  // namespace

// Expected values: arithmetic.
TEST_CASE("quantities of one unit add, subtract, scale and compare") {
    CHECK(1.5_mm + 0.5_mm == 2.0_mm);
    CHECK(1.5_mm - 0.5_mm == 1.0_mm);
    CHECK(3.0 * 0.5_ohm == 1.5_ohm);
    CHECK(0.4_V < 0.5_V);
    CHECK(Picoseconds() == 0.0_ps);
}

TEST_CASE("the ratio of two lengths is a plain number") {
    const double ratio = 3.0_mm / 1.5_mm;
    CHECK(ratio == 2.0);
}

}  // namespace pinfold
