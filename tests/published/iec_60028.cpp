// IEC 60028 (1925), International standard of resistance for copper. The figures as public
// summaries print them: 1/58 ohm mm2/m at 20 degC, rising by 0.393 % of that for each kelvin.
#include <catch2/catch.hpp>

#include "physics/conductor.hpp"

namespace pinfold {

TEST_CASE("standard copper has the resistance of IEC 60028", "[published]") {
    struct Row {
        const char* place;
        double celsius;
        double ohm;              // of a wire 1 m long and 1 mm2 in section
        double half_last_digit;  // of the printed figure
    };
    const Row row = GENERATE(values<Row>({
        {"20 degC: 1/58 ohm", 20.0, 0.017241, 0.5e-6},
        {"1 K above: 0.00393 of it more", 21.0, 0.017241 * 1.00393, 0.6e-6},
        {"10 K below", 10.0, 0.017241 * (1.0 - 0.0393), 0.6e-6},
    }));
    CAPTURE(row.place);
    const Ohms ohm = dc_resistance(SquareMillimetres(1.0), 1000.0_mm, Celsius(row.celsius));
    CHECK(ohm.value() == Approx(row.ohm).margin(row.half_last_digit).epsilon(0));
}

TEST_CASE("58 metres of standard copper of 1 mm2 have one ohm at 20 degC", "[published]") {
    CHECK(dc_resistance(SquareMillimetres(1.0), Millimetres(58'000.0), 20.0_degC).value() ==
          Approx(1.0).epsilon(1e-12));
}

}  // namespace pinfold
