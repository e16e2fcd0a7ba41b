// Overall width of flat flexible cable: W = p (N + 1), a cable maker's parameter table and a second
// maker's page.
#include <catch2/catch.hpp>

#include "support.hpp"

namespace pinfold {

TEST_CASE("a flat ribbon is its pitch times one more than its conductors wide", "[published]") {
    const auto [id, pitch_mm] = GENERATE(table<const char*, double>({{"ffc-0.30", 0.3},
                                                                     {"ffc-0.50", 0.5},
                                                                     {"ffc-0.80", 0.8},
                                                                     {"ffc-1.00", 1.0},
                                                                     {"ffc-1.25", 1.25}}));
    const int count = GENERATE(15, 20, 22, 30, 40);
    Library library = shipped_library();
    const RibbonType& type = library.ribbon(id, {});
    CAPTURE(id, count);
    CHECK(type.pitch.value() == Approx(pitch_mm));
    CHECK(type.conductors.holds(count));
    CHECK(type.overall_width(count).value() == Approx(pitch_mm * (count + 1)));
}

// 20 ways of 0.5 mm: 10.5 mm by the formula, the width sold under that name.
TEST_CASE("twenty ways of half a millimetre are ten and a half millimetres wide", "[published]") {
    Library library = shipped_library();
    CHECK(library.ribbon("ffc-0.50", {}).overall_width(20).value() == Approx(10.5));
}

// Margin half the pitch, from memory: N conductors of 1.27 mm are N times 1.27 mm wide.
TEST_CASE("flat cable of round wires is its pitch times its conductors wide", "[published]") {
    Library library = shipped_library();
    CHECK(library.ribbon("flat-1.27", {}).overall_width(20).value() == Approx(25.4));
}

}  // namespace pinfold
